//! What may be asked, and what each field takes: the one table behind every check, its words and its ranges.

use super::{Field, Is, maybe, needed};
use crate::ask::colour_code::CODES;
use crate::book::{Base, Function};

const TYPE: Is = Is::Text("a tube designation, such as 12SK7");
const LINE_V: Is = Is::Number(20.0, 300.0, "volts rms");
const LINE_HZ: Is = Is::Number(16.0, 400.0, "hertz");
const SECONDARY_V: Is = Is::Number(10.0, 1200.0, "volts rms, from end to tap where there is one");
const SECONDARY_OHM: Is = Is::Number(0.1, 5000.0, "ohm");
const CIRCUIT_V: Is = Is::Number(0.1, 5000.0, "volts");
const GRADES: Is = Is::OneOf(&["same", "as_is", "as_is_different", "after_changes", "no", "unknown"]);

const SUPPLY: Is = Is::Kinds(&[
    (
        "series",
        &[
            maybe("amps", Is::Number(0.02, 3.0, "amperes")),
            maybe("line_v", LINE_V),
            maybe("others", Is::Texts("tube designations")),
            maybe("chassis_side", Is::Whole(0, 200)),
            maybe("dropper_ohm", Is::Number(0.0, 100_000.0, "ohm")),
        ],
    ),
    (
        "parallel",
        &[maybe("volts", Is::Number(0.5, 150.0, "volts")), maybe("spare_amps", Is::Number(0.0, 30.0, "amperes"))],
    ),
    ("battery", &[]),
]);

const SOCKET: Is = Is::Record(&[
    maybe("supply", SUPPLY),
    maybe("plate_v", CIRCUIT_V),
    maybe("screen_v", CIRCUIT_V),
    maybe("plate_ma", Is::Number(0.001, 2000.0, "milliamps")),
    maybe("tie_points", Is::Pins),
    maybe("agc", Is::Flag),
    maybe("cathode_ohm", Is::Number(1.0, 100_000.0, "ohm")),
    maybe("load_kohm", Is::Number(0.1, 10_000.0, "kilohms")),
    maybe("b_plus_v", CIRCUIT_V),
    maybe("tuned_khz", Is::Number(10.0, 1e6, "kilohertz")),
    maybe("tuned_pf", Is::Number(1.0, 5000.0, "picofarads")),
    maybe("load_ma", Is::Number(1.0, 500.0, "milliamps")),
    maybe("first_filter_uf", Is::Number(0.5, 1000.0, "microfarads")),
    maybe("secondary_v", SECONDARY_V),
    maybe("secondary_ohm", SECONDARY_OHM),
]);

/// The fields of a supply.
const RECTIFIER: &[Field] = &[
    maybe("line_v", LINE_V),
    maybe("line_hz", LINE_HZ),
    maybe("topology", Is::OneOf(&["centre_tap", "bridge", "full_wave_doubler", "half_wave_doubler", "half_wave"])),
    maybe("secondary_v", SECONDARY_V),
    maybe("secondary_ohm", SECONDARY_OHM),
    maybe("primary_ohm", Is::Number(0.1, 1000.0, "ohm")),
    maybe(
        "original",
        Is::Kinds(&[
            ("selenium", &[maybe("plates", Is::Number(1.0, 40.0, "plates"))]),
            (
                "tube",
                &[
                    needed("type", TYPE),
                    maybe("drop_v", Is::Number(1.0, 300.0, "volts")),
                    maybe("drop_ma", Is::Number(1.0, 5000.0, "milliamps")),
                ],
            ),
            ("silicon", &[]),
        ]),
    ),
    maybe("replacement", TYPE),
    maybe("target_v", Is::Number(10.0, 1500.0, "volts")),
    needed("first_filter_uf", Is::Number(0.5, 1000.0, "microfarads")),
    maybe("doubler_uf", Is::Number(0.5, 1000.0, "microfarads")),
    maybe("filter_ohm", Is::Number(1.0, 100_000.0, "ohm")),
    maybe("filter_henry", Is::Number(0.1, 200.0, "henries")),
    maybe("second_filter_uf", Is::Number(0.5, 1000.0, "microfarads")),
    maybe("after_filter_ma", Is::Number(0.1, 500.0, "milliamps")),
    maybe("load_ma", Is::Number(1.0, 500.0, "milliamps")),
    maybe("load_ohm", Is::Number(100.0, 1e6, "ohm")),
    maybe("load_tubes", Is::Texts("tube designations")),
    maybe("fitted_ohm", Is::Number(0.0, 2000.0, "ohm")),
    maybe("filter_rated_v", Is::Number(10.0, 1000.0, "volts")),
    maybe("measured_v", Is::Number(1.0, 1500.0, "volts")),
    maybe("measured_ripple_v", Is::Number(0.01, 300.0, "volts on the AC range")),
    maybe("filament_tubes", Is::Texts("tube designations, in series on B+")),
    maybe("filament_ohm", Is::Number(0.0, 100_000.0, "ohm")),
];

/// What a part does: first the roles of capacitors, last those of resistors; one is of both.
const PART_ROLES: [&str; 20] = [
    "coupling",
    "bypass",
    "cathode_bypass",
    "tone",
    "tuned",
    "first_filter",
    "second_filter",
    "across_line",
    "line_to_chassis",
    "aerial_isolation",
    "agc",
    "buffer",
    "bus_to_chassis",
    "plate_load",
    "screen_feed",
    "grid_leak",
    "cathode",
    "filter",
    "surge",
    "heater_dropper",
];
const CAPACITOR_ROLES: &[&str] = PART_ROLES.split_at(13).0;
const RESISTOR_ROLES: &[&str] = PART_ROLES.split_at(12).1;

/// The fields of a job sheet.
pub(super) const SHEET: &[Field] = &[
    needed("name", Is::Text("what the set is called")),
    maybe("note", Is::Text("anything to remember")),
    maybe("heaters", Is::OneOf(&["series", "parallel", "battery"])),
    maybe("line_v", LINE_V),
    maybe("line_hz", Is::Number(0.0, 400.0, "hertz, 0 for DC")),
    maybe("designed_v", LINE_V),
    maybe("winding_v", Is::Number(0.5, 150.0, "volts")),
    maybe("winding_a", Is::Number(0.01, 100.0, "amperes")),
    needed("tubes", Is::Records(SHEET_TUBE)),
    maybe("rectifier", Is::Draft(RECTIFIER)),
    needed("parts", Is::Records(SHEET_PART)),
    maybe("readings", Is::Records(SHEET_READING)),
];

const SHEET_TUBE: &[Field] = &[
    needed("type", Is::Text("a tube designation or an item of the heater string, such as 12SK7 or cord 180 ohm")),
    maybe("place", Is::Text("where it sits, such as V1")),
    maybe("state", Is::OneOf(&["good", "weak", "dead", "missing"])),
    maybe("fitted", TYPE),
    maybe("note", Is::Text("anything to remember")),
];

const SHEET_PART: &[Field] = &[
    maybe("reference", Is::Text("its reference, such as C4")),
    needed("marking", Is::Text("what is written on the part, such as .02 mfd 400v")),
    maybe("role", Is::OneOf(&PART_ROLES)),
    maybe("measured", Is::Text("what a meter reads, such as 560k or 31 nF")),
    maybe("note", Is::Text("anything to remember")),
    maybe("done", Is::Flag),
];

const SHEET_READING: &[Field] = &[
    needed("key", Is::Text("the `key` of a step of the bring-up")),
    needed("value", Is::Number(-2000.0, 100_000.0, "the unit of that step")),
];

const SHEETS: Is = Is::Records(SHEET);

/// Every question with its fields.
pub(super) const QUESTIONS: &[(&str, &[Field])] = &[
    ("tube", &[needed("type", TYPE)]),
    ("row", &[needed("type", TYPE)]),
    ("own", &[maybe("find", Is::Text("part of a type or name")), maybe("limit", Is::Whole(1, 1000))]),
    (
        "search",
        &[
            maybe("text", Is::Text("part of a number, `?` for a worn-off character, such as 6?5GT")),
            maybe("base", Is::OneOf(Base::WORDS)),
            maybe("pins", Is::Whole(4, 12)),
            maybe("top_cap", Is::Flag),
            maybe("heater_v", Is::Number(0.1, 150.0, "volts")),
            maybe("heater_a", Is::Number(0.005, 30.0, "amperes")),
            maybe("function", Is::OneOf(Function::WORDS)),
            maybe("limit", Is::Whole(1, 1000)),
        ],
    ),
    ("swap", &[needed("original", TYPE), needed("candidate", TYPE), maybe("socket", SOCKET)]),
    (
        "candidates",
        &[
            needed("original", TYPE),
            maybe("socket", SOCKET),
            maybe("least_grade", GRADES),
            maybe("limit", Is::Whole(1, 1000)),
        ],
    ),
    (
        "serves",
        &[
            needed("candidate", TYPE),
            maybe("wanted", Is::Texts("tube designations")),
            maybe("socket", SOCKET),
            maybe("least_grade", GRADES),
            maybe("limit", Is::Whole(1, 1000)),
        ],
    ),
    (
        "line_up",
        &[
            maybe("tubes", Is::Texts("tube designations")),
            maybe("note", Is::Text("what is written, with the types in it")),
            maybe("supply", SUPPLY),
        ],
    ),
    (
        "heater_string",
        &[
            maybe("line_v", LINE_V),
            maybe("line_hz", Is::Number(0.0, 400.0, "hertz, 0 for DC")),
            needed("tubes", Is::Texts("tube designations, in the order they are wired")),
            maybe("designed_v", LINE_V),
            maybe("winding_v", Is::Number(0.5, 150.0, "volts")),
            maybe("winding_a", Is::Number(0.01, 100.0, "amperes")),
            maybe("dropper_ohm", Is::Number(0.0, 100_000.0, "ohm")),
        ],
    ),
    ("rectifier", RECTIFIER),
    (
        "capacitor",
        &[
            needed("marking", Is::Text("what is written on the part, such as .02 mfd 400v")),
            maybe("kind", Is::OneOf(&["paper", "film", "electrolytic", "mica", "ceramic"])),
            maybe("role", Is::OneOf(CAPACITOR_ROLES)),
            maybe("circuit_v", CIRCUIT_V),
            maybe("line_v", LINE_V),
            maybe("line_hz", LINE_HZ),
            maybe("measured_pf", Is::Picofarads(0.01, 1e12)),
            maybe("in_circuit", Is::Flag),
            maybe("grid_v", Is::Number(0.0, 1000.0, "volts positive at the grid")),
            maybe("grid_ohm", Is::Number(1000.0, 1e9, "ohm")),
            maybe("esr_ohm", Is::Number(0.0, 1e6, "ohm")),
            maybe("load_ma", Is::Number(0.1, 2000.0, "milliamps")),
            maybe("rectifier", Is::Text("the rectifier tube, such as 35W4")),
        ],
    ),
    (
        "resistor",
        &[
            needed("marking", Is::Text("what is written on the part, such as 500k 20%")),
            maybe("measured_ohm", Is::Number(0.0, 1e9, "ohm")),
            maybe("in_circuit", Is::Flag),
            maybe("role", Is::OneOf(RESISTOR_ROLES)),
            maybe("circuit_v", CIRCUIT_V),
            maybe("circuit_ma", Is::Number(0.0001, 5000.0, "milliamps")),
            maybe("watts", Is::Number(0.05, 200.0, "watts")),
        ],
    ),
    (
        "colour_code",
        &[
            needed("code", Is::OneOf(&CODES)),
            needed("colours", Is::Texts("colours, such as red; none for a missing mark")),
            maybe("wide_first", Is::Flag),
            maybe("measured_ohm", Is::Number(0.0, 1e9, "ohm")),
            maybe("measured_pf", Is::Picofarads(0.0, 1e12)),
        ],
    ),
    (
        "parts_list",
        &[
            needed("lines", Is::Texts("lines of a parts list, such as C4 .02 mfd 400v")),
            maybe("line_v", LINE_V),
            maybe("line_hz", LINE_HZ),
        ],
    ),
    ("sheet", &[needed("sheet", Is::Record(SHEET))]),
    ("sheet_lines", &[needed("text", Is::Long("a list of tubes and parts"))]),
    ("sheet_file", &[maybe("text", Is::Long("the text of a file of sheets")), maybe("sheets", SHEETS)]),
    ("wants", &[needed("sheets", SHEETS)]),
    ("on_the_table", &[needed("text", Is::Long("tube designations")), needed("sheets", SHEETS)]),
    ("shopping", &[needed("sheets", SHEETS)]),
    (
        "stock",
        &[maybe("find", Is::Text("part of a marking, type, place or note")), maybe("limit", Is::Whole(1, 10_000))],
    ),
];
