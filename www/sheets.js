// The questions a person can put, as data: which fields each has, and where it stands on the page.

/** @typedef {"swap" | "serves" | "lineup" | "search" | "rectifier" | "heaters" | "capacitor" | "resistor" | "colours" | "list" | "jobs" | "job" | "bringup" | "wants" | "table" | "stock" | "shopping" | "book" | "row"} Sheet one question of the page */
/** @typedef {"tube" | "supply" | "part" | "sets" | "book"} Place one of the four places in the bar, or the parts book behind the menu */
/** @typedef {Record<string, string>} Fields what was typed and chosen, as text; an empty text is not given */

/** The fields of every question, in the order in which they stand in an address. @type {Record<Sheet, readonly string[]>} */
export const FIELDS = {
  swap: [
    "set", "have", "heaters", "string_a", "line_v", "others", "heater_v", "spare_a",
    "chassis_side", "dropper_ohm", "plate_v", "screen_v", "plate_ma", "cathode_ohm", "load_kohm", "b_plus_v", "ties", "tie_pins",
    "agc", "tuned_khz", "tuned_pf", "load_ma", "first_uf", "secondary_v", "secondary_ohm",
  ],
  serves: ["have", "wanted", "heaters", "string_a"],
  lineup: ["note", "heaters"],
  search: ["text", "base", "pins", "top_cap", "heater_v", "heater_a", "function"],
  rectifier: [
    "wiring", "original", "plates", "type", "replacement", "drop_v", "drop_ma", "line_v", "line_hz", "secondary_v", "secondary_ohm", "primary_ohm",
    "first_uf", "load_ma", "load_tubes", "load_ohm", "filament_tubes", "filament_ohm", "doubler", "doubler_uf", "target_v", "rated_v",
    "filter_ohm", "filter_henry", "second_uf", "after_ma", "fitted_ohm", "measured_v", "measured_ripple_v",
  ],
  heaters: ["tubes", "fed", "line_v", "line_hz", "dropper_ohm", "designed_v", "winding_v", "winding_a"],
  capacitor: [
    "marking", "role", "kind", "circuit_v", "line_v", "line_hz", "measured", "in_circuit", "grid_v", "grid_ohm", "esr_ohm", "load_ma", "rectifier",
  ],
  resistor: ["marking", "measured", "in_circuit", "role", "circuit_v", "circuit_ma", "watts"],
  colours: ["code", "marks", "colours", "measured", "wide_first"],
  list: ["lines", "line_v", "line_hz"],
  jobs: [],
  job: ["id"],
  bringup: ["id"],
  wants: [],
  table: ["text"],
  stock: ["find", "key", "marking", "count", "place", "tested", "note"],
  shopping: ["id"],
  book: ["find"],
  row: ["type"],
};

/** The questions of each place; the first is the one it opens with. @type {Record<Place, readonly Sheet[]>} */
export const PLACES = {
  tube: ["swap", "serves", "lineup", "search"], supply: ["rectifier", "heaters"], part: ["capacitor", "resistor", "colours", "list"],
  sets: ["jobs", "job", "bringup", "wants", "table", "stock", "shopping"], book: ["book", "row"],
};

/** Fields that say something of the bench rather than of one part: cleared with nothing, kept for the next question. */
export const LASTING = ["heaters", "line_v", "line_hz", "code", "marks"];

/** How many marks a part of each colour code can have, the usual number first. @type {Record<string, readonly number[]>} */
export const MARKS = { resistor_bands: [4, 3, 5, 6], body_end_dot: [3, 4], mica_dots: [6, 5, 3], paper_bands: [5, 6], ceramic: [5, 6, 3] };
/** Stands among the colours for a mark that is not told yet. */
export const UNTOLD = ".";

export const SHEETS = /** @type {Sheet[]} */ (Object.keys(FIELDS));

/** @param {Sheet} sheet @returns {Place} */
export const placeOf = (sheet) =>
  /** @type {Place} */ (Object.keys(PLACES).find((place) => PLACES[/** @type {Place} */ (place)].includes(sheet)));

/** Every question with nothing filled in. @returns {Record<Sheet, Fields>} */
export const blank = () =>
  /** @type {Record<Sheet, Fields>} */ (Object.fromEntries(SHEETS.map((sheet) => [sheet, {}])));
