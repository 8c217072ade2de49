// Generated from the Rust types by the test `declarations_are_current`; do not edit.
// To renew: UPDATE_DECLARATIONS=1 cargo test declarations

/**
 * Everything that can be asked: one JSON object, tagged `ask`.
 *
 * Read by `accepted::read`, which checks every field against its table and then hands each kind to serde on its own. A derived reader for the
 * tagged enum would say less when something is wrong, and weigh as much in the download as the whole parts book.
 */
export type Question = { "ask": "tube" } & TubeQuestion | { "ask": "row" } & RowQuestion | { "ask": "own" } & OwnQuestion | { "ask": "search" } & SearchQuestion | { "ask": "swap" } & SwapQuestion | { "ask": "candidates" } & CandidatesQuestion | { "ask": "serves" } & ServesQuestion | { "ask": "line_up" } & LineUpQuestion | { "ask": "heater_string" } & HeaterStringQuestion | { "ask": "rectifier" } & RectifierQuestion | { "ask": "capacitor" } & CapacitorQuestion | { "ask": "resistor" } & ResistorQuestion | { "ask": "colour_code" } & ColourCodeQuestion | { "ask": "parts_list" } & PartsListQuestion | { "ask": "sheet" } & SheetQuestion | { "ask": "sheet_lines" } & SheetLinesQuestion | { "ask": "sheet_file" } & SheetFileQuestion | { "ask": "wants" } & WantsQuestion | { "ask": "on_the_table" } & OnTheTableQuestion | { "ask": "shopping" } & ShoppingQuestion | { "ask": "stock" } & StockQuestion;

/**
 * A type as typed, however sloppily.
 */
export type TubeQuestion = { 
/**
 * "12sk7 gt/g", "ecc 83".
 */
type: string, };

/**
 * A type as typed.
 */
export type RowQuestion = { 
/**
 * "12SK7"; a type that is not in the book gets empty rows to be filled in.
 */
type: string, };

/**
 * Which of the user's rows.
 */
export type OwnQuestion = { 
/**
 * Part of a type or name; all when it is not given.
 */
find?: string, 
/**
 * How many to give, at most; 20 when it is not given.
 */
limit?: number, };

/**
 * What is known of the tube: at least one of these.
 */
export type SearchQuestion = { 
/**
 * Part of a number, with `?` for a character that cannot be read: "6?5GT", "SK7".
 */
text?: string, 
/**
 * The base, as the book writes it: "octal", "miniature-7".
 */
base?: string, 
/**
 * How many pins the base has, also where one is left out.
 */
pins?: number, 
/**
 * Whether it has a top cap.
 */
top_cap?: boolean, 
/**
 * Heater volts, of the whole heater or of its halves in parallel, within 5 %.
 */
heater_v?: number, 
/**
 * Heater amperes, likewise.
 */
heater_a?: number, 
/**
 * What one of its units does, as the book writes it: "triode", "power_pentode".
 */
function?: string, 
/**
 * How many to list; 30 unless said.
 */
limit?: number, };

/**
 * Can the candidate go where the original was?
 */
export type SwapQuestion = { 
/**
 * The type the set wants.
 */
original: string, 
/**
 * The type at hand.
 */
candidate: string, 
/**
 * What is known of the socket.
 */
socket?: SocketQuestion, };

/**
 * What is known of the socket.
 */
export type SocketQuestion = { 
/**
 * How the heaters are fed; left out: both ways are answered side by side.
 */
supply?: SupplyQuestion, 
/**
 * The highest DC volts the set puts on the plate.
 */
plate_v?: number, 
/**
 * The highest DC volts the set puts on the screen.
 */
screen_v?: number, 
/**
 * The plate current in the set, milliamps.
 */
plate_ma?: number, 
/**
 * Pins the original leaves empty that have something soldered to them; an empty list says: looked, nothing there.
 */
tie_points?: Array<number>, 
/**
 * Whether the stage is controlled by AGC (automatic gain control).
 */
agc?: boolean, 
/**
 * Cathode resistor of the stage, ohms.
 */
cathode_ohm?: number, 
/**
 * Plate load of the stage, or what the output transformer shows, kilohms.
 */
load_kohm?: number, 
/**
 * B+ that the plate load hangs on, volts.
 */
b_plus_v?: number, 
/**
 * What the stage is tuned to, kilohertz.
 */
tuned_khz?: number, 
/**
 * Capacitance across its coil, picofarads.
 */
tuned_pf?: number, 
/**
 * For a rectifier: what the set draws, milliamps.
 */
load_ma?: number, 
/**
 * For a rectifier: the first filter capacitor, microfarads.
 */
first_filter_uf?: number, 
/**
 * For a rectifier on a winding: its volts rms without load, from one end to the tap where there is one.
 */
secondary_v?: number, 
/**
 * Ohms of that winding, from one end to the tap where there is one.
 */
secondary_ohm?: number, };

/**
 * How the heaters of the set are fed; tagged `kind`.
 */
export type SupplyQuestion = { "kind": "series", 
/**
 * String current, amperes; left out: the original's heater current.
 */
amps?: number, 
/**
 * Line volts; left out: 117 is taken where only the sum of the string matters.
 */
line_v?: number, 
/**
 * The other types in the string, when known.
 */
others?: Array<string>, 
/**
 * How many of the others, the last ones, lie between this tube and chassis; the others in the order they are wired, from the line end.
 */
chassis_side?: number, 
/**
 * Dropper, ballast or line-cord resistor in series with the string, ohms.
 */
dropper_ohm?: number, } | { "kind": "parallel", 
/**
 * Heater volts of the set; left out: the original's.
 */
volts?: number, 
/**
 * Current the winding has to spare, amperes.
 */
spare_amps?: number, } | { "kind": "battery" };

/**
 * What could go in instead?
 */
export type CandidatesQuestion = { 
/**
 * The type the set wants.
 */
original: string, 
/**
 * What is known of the socket.
 */
socket?: SocketQuestion, 
/**
 * The worst grade wanted in the list; left out: `after_changes`.
 */
least_grade?: Grade, 
/**
 * How many at the most; left out: 40.
 */
limit?: number, };

/**
 * What could this one do for me?
 */
export type ServesQuestion = { 
/**
 * The type at hand.
 */
candidate: string, 
/**
 * Types that are wanted, each as a type or as a note with several; left out: every type of the book.
 */
wanted?: Array<string>, 
/**
 * What is known of the sockets they go into.
 */
socket?: SocketQuestion, 
/**
 * The worst grade wanted in the list; left out: `after_changes`. Wanted types that are named are all listed.
 */
least_grade?: Grade, 
/**
 * How many at the most; left out: 40.
 */
limit?: number, };

/**
 * Is this set really unobtainable? At least one of `tubes` and `note`.
 */
export type LineUpQuestion = { 
/**
 * The types of the set.
 */
tubes?: Array<string>, 
/**
 * A note or label with the types in it.
 */
note?: string, 
/**
 * How the heaters are fed; left out: taken from the heaters themselves where they tell.
 */
supply?: SupplyQuestion, };

/**
 * Tubes in series across the line.
 */
export type HeaterStringQuestion = { 
/**
 * Line volts rms as measured, 20 to 300.
 */
line_v?: number, 
/**
 * Line frequency in hertz; 0 for DC.
 */
line_hz?: number, 
/**
 * Types in the order they are wired, from the line end to the chassis end; between them `150 ohm`, `cord 180 ohm`, `lamp 47`,
 * `lamp 6.3 V 0.15 A with 50 ohm`, `ballast K49C`, `ntc 1500/40 ohm`.
 */
tubes: Array<string>, 
/**
 * Line volts the set is made for, from its plate.
 */
designed_v?: number, 
/**
 * Volts of the heater winding, when the heaters are in parallel on one; the line does not matter then.
 */
winding_v?: number, 
/**
 * Amperes that winding is made for.
 */
winding_a?: number, 
/**
 * Dropper or line-cord resistor fitted in series, ohms; left out when there is none or when it is asked for.
 */
dropper_ohm?: number, };

/**
 * A set whose rectifier is to be replaced by silicon or by another tube, or whose B+ is to be explained.
 */
export type RectifierQuestion = { 
/**
 * Line volts rms as measured, 20 to 300.
 */
line_v?: number, 
/**
 * Line frequency in hertz, 16 to 400.
 */
line_hz?: number, 
/**
 * How the rectifiers are wired; left out: half-wave.
 */
topology?: RectifierTopology, 
/**
 * Volts rms of the unloaded winding at that line, from one end to the tap where there is one; left out: straight from the
 * line.
 */
secondary_v?: number, 
/**
 * Ohms of that winding, from one end to the tap where there is one; needed with `secondary_v`.
 */
secondary_ohm?: number, 
/**
 * Ohms of the primary; left out: taken to count as much as the secondary.
 */
primary_ohm?: number, 
/**
 * What is or was fitted; left out when nobody knows.
 */
original?: OriginalRectifier, 
/**
 * Another rectifier tube that is to go in instead.
 */
replacement?: string, 
/**
 * B+ wanted at the first filter, volts, from a drawing; never a reading taken on a tired rectifier. Left out: what the
 * original gave when fresh.
 */
target_v?: number, 
/**
 * First filter capacitor (of a full-wave doubler one of the two), microfarads.
 */
first_filter_uf: number, 
/**
 * The other capacitor of a doubler, microfarads; left out: like the first filter.
 */
doubler_uf?: number, 
/**
 * Filter resistor, or the ohms of the filter choke's winding, between first and second filter.
 */
filter_ohm?: number, 
/**
 * Henries of the filter choke; left out: a resistor.
 */
filter_henry?: number, 
/**
 * Second filter capacitor, microfarads.
 */
second_filter_uf?: number, 
/**
 * How much of the load passes the filter resistor, milliamps; the rest (as a rule the plate of the output tube) is fed
 * from the first filter. Left out: the volts after the filter resistor cannot be told.
 */
after_filter_ma?: number, 
/**
 * What the set draws from B+, milliamps, warm; or `load_ohm`, or `load_tubes`.
 */
load_ma?: number, 
/**
 * The load as a resistance, ohms.
 */
load_ohm?: number, 
/**
 * The tubes on B+, whose typical plate and screen currents are summed.
 */
load_tubes?: Array<string>, 
/**
 * Series resistance already in the set and staying there, ohms.
 */
fitted_ohm?: number, 
/**
 * Rated volts of the filter capacitors that are fitted or at hand.
 */
filter_rated_v?: number, 
/**
 * What is read at the first filter now, warm, volts DC.
 */
measured_v?: number, 
/**
 * What a meter on its AC range reads there, volts rms.
 */
measured_ripple_v?: number, 
/**
 * Battery tubes whose filaments are fed in series from B+ (three-way portables).
 */
filament_tubes?: Array<string>, 
/**
 * The resistor between B+ and those filaments, ohms.
 */
filament_ohm?: number, };

/**
 * How the rectifiers are wired.
 */
export type RectifierTopology = "half_wave" | "centre_tap" | "bridge" | "full_wave_doubler" | "half_wave_doubler";

/**
 * The rectifier being replaced.
 */
export type OriginalRectifier = { "kind": "selenium", 
/**
 * Plates in the stack, when counted.
 */
plates?: number, } | { "kind": "tube", 
/**
 * Its type.
 */
type: string, 
/**
 * Its tube drop from a data sheet, volts, when the book has none or another.
 */
drop_v?: number, 
/**
 * The current of that drop, milliamps.
 */
drop_ma?: number, } | { "kind": "silicon" };

/**
 * One capacitor to replace.
 */
export type CapacitorQuestion = { 
/**
 * What is written on it: `.02 mfd 400v`, `16-450`, `103`.
 */
marking: string, 
/**
 * What it is made of, when known.
 */
kind?: CapacitorKind, 
/**
 * What it does, when known.
 */
role?: CapacitorRole, 
/**
 * The highest DC volts the place can put on it at cold start, when known.
 */
circuit_v?: number, 
/**
 * Line volts rms, for parts at the line.
 */
line_v?: number, 
/**
 * Line frequency in hertz, for parts at the line.
 */
line_hz?: number, 
/**
 * What a meter reads: picofarads, or text with the unit, as in "22 n" or "0.02 uF".
 */
measured_pf?: number | string, 
/**
 * It was measured with both ends connected and the tube in.
 */
in_circuit?: boolean, 
/**
 * Positive DC volts it causes at the next grid, with that tube out; 0 for none.
 */
grid_v?: number, 
/**
 * The resistor from that grid to ground, ohms.
 */
grid_ohm?: number, 
/**
 * Equivalent series resistance of an electrolytic, ohms.
 */
esr_ohm?: number, 
/**
 * Direct current of the supply it filters, milliamps.
 */
load_ma?: number, 
/**
 * The rectifier tube before a first filter.
 */
rectifier?: string, };

/**
 * What the old part is made of.
 */
export type CapacitorKind = "paper" | "electrolytic" | "mica" | "ceramic" | "film";

/**
 * What the part does in the set.
 */
export type CapacitorRole = "coupling" | "bypass" | "cathode_bypass" | "tone" | "tuned" | "first_filter" | "second_filter" | "across_line" | "line_to_chassis" | "bus_to_chassis" | "aerial_isolation" | "agc" | "buffer";

/**
 * One resistor to judge or replace.
 */
export type ResistorQuestion = { 
/**
 * What is written on it or on the drawing: `500k 20%`, `50M`, `4k7 1W`.
 */
marking: string, 
/**
 * What a meter reads, ohms; with one end lifted, unless `in_circuit`.
 */
measured_ohm?: number, 
/**
 * It was measured with both ends connected, where it can only read low.
 */
in_circuit?: boolean, 
/**
 * What it does, when known.
 */
role?: ResistorRole, 
/**
 * Volts across it, when known.
 */
circuit_v?: number, 
/**
 * Milliamps through it, when known.
 */
circuit_ma?: number, 
/**
 * Watts of the old part, when known and not in the marking.
 */
watts?: number, };

/**
 * What the resistor does in the set.
 */
export type ResistorRole = "plate_load" | "screen_feed" | "grid_leak" | "cathode" | "filter" | "surge" | "heater_dropper" | "bus_to_chassis";

/**
 * A row of colours to read.
 */
export type ColourCodeQuestion = { 
/**
 * What is marked, and how: `resistor_bands`, `body_end_dot`, `mica_dots`, `paper_bands`, `ceramic`.
 */
code: string, 
/**
 * The colours, `none` for a mark that is missing. Bands from the end they stand near to; body, end, dot; dots in two rows: the upper row
 * left to right, then the lower one, with the arrow to the right or the maker's name upright.
 */
colours: Array<string>, 
/**
 * The first band is twice as wide as the others.
 */
wide_first?: boolean, 
/**
 * What a meter reads with one end lifted, ohms.
 */
measured_ohm?: number, 
/**
 * What a meter reads with one end lifted: picofarads, or text with the unit, as in "22 n" or "0.02 uF".
 */
measured_pf?: number | string, };

/**
 * A list of old parts.
 */
export type PartsListQuestion = { 
/**
 * The lines as pasted: `C4 .02 mfd 400v coupling`, `R7 500k 1/2W`, `R9 yellow violet orange silver`.
 */
lines: Array<string>, 
/**
 * Line volts rms, for parts at the line.
 */
line_v?: number, 
/**
 * Line frequency in hertz, for parts at the line.
 */
line_hz?: number, };

/**
 * A whole set put to all engines.
 */
export type SheetQuestion = { 
/**
 * The sheet.
 */
sheet: JobSheet, };

/**
 * What is written down of one set.
 */
export type JobSheet = { 
/**
 * What its owner calls it.
 */
name: string, 
/**
 * Anything to remember.
 */
note?: string, 
/**
 * How the heaters are fed; left out while it is not known.
 */
heaters?: SheetHeaters, 
/**
 * Line volts rms as measured, 20 to 300.
 */
line_v?: number, 
/**
 * Line frequency in hertz, 0 for DC.
 */
line_hz?: number, 
/**
 * Line volts the set is made for, from its plate.
 */
designed_v?: number, 
/**
 * Volts of the heater winding.
 */
winding_v?: number, 
/**
 * Amperes that winding is made for.
 */
winding_a?: number, 
/**
 * Tubes, and what else is in a heater string (`cord 180 ohm`, `lamp 47`), in the order wired: from the line end to the chassis end.
 */
tubes: Array<SheetTube>, 
/**
 * The supply as far as it is told, in the fields of `rectifier`; the line and, where no load is told, the set's tubes are taken from the sheet.
 */
rectifier?: Partial<RectifierQuestion>, 
/**
 * Capacitors and resistors.
 */
parts: Array<SheetPart>, 
/**
 * What was read at the points of the bring-up.
 */
readings?: Array<SheetReading>, };

/**
 * How the heaters of a set are fed.
 */
export type SheetHeaters = "series" | "parallel" | "battery";

/**
 * How a tube was found.
 */
export type TubeState = "good" | "weak" | "dead" | "missing";

/**
 * One tube of the set, or what else is in its heater string.
 */
export type SheetTube = { 
/**
 * The type the set wants, or an item of the string as `heater_string` takes it.
 */
type: string, 
/**
 * Where it sits: `V1`.
 */
place?: string, 
/**
 * How it was found; left out while it is not tested.
 */
state?: TubeState, 
/**
 * The type that goes in instead: string and supply are worked out with it.
 */
fitted?: string, 
/**
 * Anything to remember.
 */
note?: string, };

/**
 * One capacitor or resistor of the set.
 */
export type SheetPart = { 
/**
 * `C4`, `R7`.
 */
reference?: string, 
/**
 * What is written on it, or its colours: `.02 mfd 400v`, `yellow violet orange silver`.
 */
marking: string, 
/**
 * What it does, when known.
 */
role?: PartRole, 
/**
 * What a meter reads, as it reads it: `560k`, `31 nF`.
 */
measured?: string, 
/**
 * Anything to remember.
 */
note?: string, 
/**
 * It is replaced: nothing is bought for it any more.
 */
done?: boolean, };

/**
 * What a part does: the role of a capacitor or of a resistor.
 */
export type PartRole = CapacitorRole | ResistorRole;

/**
 * A voltage read while the set was brought up.
 */
export type SheetReading = { 
/**
 * The point, by the `key` of its row in the bring-up.
 */
key: string, 
/**
 * What the meter read there, in the unit of that row.
 */
value: number, };

/**
 * What was pasted or brought as CSV, to be made lines of a sheet.
 */
export type SheetLinesQuestion = { 
/**
 * Free text, or CSV with the columns `reference`, `marking`, `role`, `measured`, `note` (of a tube the marking is its type).
 */
text: string, };

/**
 * Sheets to be written as a file, or a file to be read.
 */
export type SheetFileQuestion = { 
/**
 * The text of a file that is brought.
 */
text?: string, 
/**
 * The sheets that are to be written.
 */
sheets?: Array<JobSheet>, };

/**
 * What do I look for?
 */
export type WantsQuestion = { 
/**
 * The sheets; their parts may be left empty.
 */
sheets: Array<JobSheet>, };

/**
 * What lies on the table?
 */
export type OnTheTableQuestion = { 
/**
 * The types as they are read off the glass, separated by blanks, commas or line breaks.
 */
text: string, 
/**
 * The sheets it may serve; their parts may be left empty.
 */
sheets: Array<JobSheet>, };

/**
 * What is to be bought for several sets?
 */
export type ShoppingQuestion = { 
/**
 * The sheets.
 */
sheets: Array<JobSheet>, };

/**
 * What do I have?
 */
export type StockQuestion = { 
/**
 * Part of a marking, type, place or note; left out: all.
 */
find?: string, 
/**
 * How many rows at the most; left out: 100.
 */
limit?: number, };

/**
 * Everything that can be answered.
 */
export type Answer = { "answer": "tube" } & TubeAnswer | { "answer": "row" } & RowAnswer | { "answer": "own" } & OwnAnswer | { "answer": "search" } & SearchAnswer | { "answer": "swap" } & SwapAnswer | { "answer": "candidates" } & CandidatesAnswer | { "answer": "serves" } & ServesAnswer | { "answer": "line_up" } & LineUpAnswer | { "answer": "heater_string" } & HeaterStringAnswer | { "answer": "rectifier" } & RectifierAnswer | { "answer": "capacitor" } & CapacitorAnswer | { "answer": "resistor" } & ResistorAnswer | { "answer": "colour_code" } & ColourCodeAnswer | { "answer": "parts_list" } & PartsListAnswer | { "answer": "sheet" } & SheetAnswer | { "answer": "sheet_lines" } & SheetLinesAnswer | { "answer": "sheet_file" } & SheetFileAnswer | { "answer": "wants" } & WantsAnswer | { "answer": "on_the_table" } & OnTheTableAnswer | { "answer": "shopping" } & ShoppingAnswer | { "answer": "stock" } & StockAnswer | { "answer": "error" } & ErrorAnswer;

/**
 * Which field is wrong, what was found there, what is accepted.
 */
export type ErrorAnswer = { 
/**
 * The path of the field: `tubes[2]`, `socket.supply.amps`; empty when the question as a whole cannot be read.
 */
field: string, 
/**
 * What was found there.
 */
found: string, 
/**
 * What is accepted there.
 */
accepted: string, 
/**
 * One plain sentence.
 */
says: string, 
/**
 * Near names, when a type was not found.
 */
near?: Array<string>, };

/**
 * What was found.
 */
export type TubeAnswer = { 
/**
 * "12SK7GT is a remote cut-off pentode", or that it is not in the book.
 */
verdict: Verdict, 
/**
 * The tube; absent when not found.
 */
tube?: TubeView, 
/**
 * Near names: completions of what was typed, or what it may have meant.
 */
near: Array<string>, 
/**
 * How it was understood, and what to know.
 */
findings: Array<Finding>, };

/**
 * A tube as the page shows it.
 */
export type TubeView = { 
/**
 * The type as the book writes it.
 */
type: string, 
/**
 * "pentode, remote cut-off".
 */
is: string, 
/**
 * "octal".
 */
base: string, 
/**
 * EIA base designation, when known.
 */
basing?: string, 
/**
 * "12.6 V, 0.15 A".
 */
heater: string, 
/**
 * What the designation itself says, piece by piece.
 */
designation: Array<string>, 
/**
 * Pins on the base, for drawing.
 */
pin_count: number, 
/**
 * Every pin, from below; empty when the book has no pin map.
 */
pins: Array<PinView>, 
/**
 * Other names.
 */
names: Array<string>, 
/**
 * Its units.
 */
units: Array<UnitView>, 
/**
 * `common`, `findable` or `scarce`: a judgement; absent when nobody judged.
 */
found_today?: string, 
/**
 * Where the row comes from.
 */
source: string, 
/**
 * Figures on which two recollections differed, left empty, in words.
 */
unsure: Array<string>, 
/**
 * A remark of the book.
 */
note?: string, };

/**
 * One pin of the socket seen from below, for drawing.
 */
export type PinView = { 
/**
 * "1" to "12", or "cap".
 */
pin: string, 
/**
 * Angle in degrees, clockwise from straight down (where the key or gap is drawn); absent for the cap.
 */
angle_deg?: number, 
/**
 * Short label for the drawing: "p", "g1", "k+g3", "h", "-".
 */
label: string, 
/**
 * In words: "plate", "cathode and suppressor grid", "no connection".
 */
words: string, 
/**
 * One of `heater`, `electrode`, `empty`, `internal`, `shell`.
 */
part: string, };

/**
 * One electrode system of the tube.
 */
export type UnitView = { 
/**
 * "pentode", "signal diode".
 */
function: string, 
/**
 * How many units are alike.
 */
alike: number, 
/**
 * Name and figure with unit, in the order of the book's columns; empty fields left out.
 */
figures: Array<[string, string]>, };

/**
 * The rows of a type.
 */
export type RowAnswer = { 
/**
 * The type as the book writes it, or as it was typed when it is new.
 */
type: string, 
/**
 * The columns, the user's own last.
 */
columns: Array<ColumnView>, 
/**
 * Its rows, in the order of its units.
 */
rows: Array<RowView>, };

/**
 * A column: what it means and what it takes.
 */
export type ColumnView = { 
/**
 * Its name in the file.
 */
column: string, 
/**
 * What it means: "most plate volts"; the name again for a column of the user's own.
 */
words: string, 
/**
 * The unit of its numbers: "V"; empty when there is none.
 */
unit: string, 
/**
 * The words it takes; empty when it takes any text or numbers.
 */
one_of: Array<string>, 
/**
 * The least number it takes; absent when it takes text.
 */
least?: number, 
/**
 * The greatest number it takes; absent when it takes text.
 */
most?: number, 
/**
 * Whether it is read in the row of the first unit alone: base, pins, heater, bulb, source.
 */
of_bulb: boolean, };

/**
 * A row: a unit, or several like ones.
 */
export type RowView = { 
/**
 * `shipped`, `own` (the user's, laid over the shipped one or new), `empty` (not in the book).
 */
from: string, 
/**
 * Its cells, in the order of the columns.
 */
cells: Array<CellView>, };

/**
 * A cell.
 */
export type CellView = { 
/**
 * Its text; empty when not known.
 */
text: string, 
/**
 * What the shipped book says, where that differs.
 */
shipped?: string, };

/**
 * The user's rows.
 */
export type OwnAnswer = { 
/**
 * How many types he has corrected or added.
 */
tubes: number, 
/**
 * How many names.
 */
names: number, 
/**
 * How many parts that are sold.
 */
parts: number, 
/**
 * Those asked for, types first.
 */
shown: Array<OwnView>, 
/**
 * How many more fit.
 */
more: number, };

/**
 * A type, name or part of the user.
 */
export type OwnView = { 
/**
 * The table: "tubes", "names", "capacitors" or "resistors".
 */
table: string, 
/**
 * The type, name or part.
 */
name: string, 
/**
 * The units of a type ("1, 2-3"), the type a name points at, or what a part is made of or comes in.
 */
says: string, };

/**
 * What fits.
 */
export type SearchAnswer = { 
/**
 * The best of them: the whole number first, then those that begin so; of equal ones the commoner.
 */
matches: Array<SearchMatch>, 
/**
 * How many fit.
 */
count: number, 
/**
 * How many more have such a number, of which the book does not know what else was asked for.
 */
not_known: number, 
/**
 * One plain sentence.
 */
says: string, };

/**
 * A type that fits.
 */
export type SearchMatch = { 
/**
 * The type.
 */
type: string, 
/**
 * The name that was matched: the type itself or one of its other names.
 */
name: string, 
/**
 * "pentode, remote cut-off".
 */
is: string, 
/**
 * "octal".
 */
base: string, 
/**
 * "6.3 V, 0.3 A".
 */
heater: string, 
/**
 * `common`, `findable` or `scarce`: a judgement; absent when nobody judged.
 */
found_today?: string, };

/**
 * A swap judged.
 */
export type SwapAnswer = { 
/**
 * The answer in one sentence; when the ways differ it says so.
 */
verdict: Verdict, 
/**
 * The grade that holds whichever way the heaters are fed: the worse one.
 */
grade: Grade, 
/**
 * One entry when the supply is known, else one for each way.
 */
ways: Array<Way>, 
/**
 * Warnings that belong to this answer.
 */
cautions: Array<Caution>, 
/**
 * The tube the set wants.
 */
original: TubeView, 
/**
 * The tube at hand.
 */
candidate: TubeView, 
/**
 * Pins that need a look before the candidate goes in: empty in the original, used in the candidate.
 */
danger_pins: Array<string>, 
/**
 * For each check by its name: what it looks at and why it matters.
 */
why: Array<[string, string]>, };

/**
 * A fact the book lacks, that would settle an unknown.
 */
export type MissingFact = { 
/**
 * "most plate volts of 6AU6".
 */
says: string, 
/**
 * The column of the book, or the first of several, that would hold it.
 */
column: string, 
/**
 * The types of which it is missing.
 */
types: Array<string>, };

/**
 * The swap judged under one way of feeding the heaters.
 */
export type Way = { 
/**
 * "series", "parallel" or "battery".
 */
supply: string, 
/**
 * In words: "heaters in series, 0.15 A".
 */
supply_words: string, 
/**
 * The grade.
 */
grade: Grade, 
/**
 * The answer in one sentence.
 */
verdict: Verdict, 
/**
 * How much work it is, in plain words; empty when it is not to be done.
 */
work: string, 
/**
 * What an expert would add: that the original is easily had; absent when there is nothing.
 */
advice?: string, 
/**
 * The one or two findings that decide.
 */
reasons: Array<Finding>, 
/**
 * What has to change, in order.
 */
changes: Array<Change>, 
/**
 * Every check, the deciding one first.
 */
findings: Array<Finding>, 
/**
 * What to measure afterwards.
 */
measure: Array<string>, 
/**
 * Facts missing, that would settle an unknown.
 */
missing: Array<MissingFact>, 
/**
 * The heater string with the candidate in it and nothing else changed, from the line end; empty unless the other tubes are given.
 */
string: Array<HeaterRow>, };

/**
 * All candidates, best first.
 */
export type CandidatesAnswer = { 
/**
 * The answer in one sentence.
 */
verdict: Verdict, 
/**
 * The tube the set wants.
 */
original: TubeView, 
/**
 * Best first.
 */
ranked: Array<Ranked>, 
/**
 * How many of the book's types were looked at.
 */
looked_at: number, };

/**
 * One candidate in the ranking.
 */
export type Ranked = { 
/**
 * The type.
 */
type: string, 
/**
 * Its grade: the worse one when the supply is unknown.
 */
grade: Grade, 
/**
 * "Yes, as it stands."
 */
word: string, 
/**
 * Grades per way of feeding the heaters, when they differ: ("series", `no`).
 */
ways: Array<[string, Grade]>, 
/**
 * The sentence that decides.
 */
says: string, 
/**
 * `common`, `findable`, `scarce`, or absent.
 */
found_today?: string, 
/**
 * Other markings it is sold under.
 */
names: Array<string>, };

/**
 * What it could do, best first.
 */
export type ServesAnswer = { 
/**
 * The answer in one sentence.
 */
verdict: Verdict, 
/**
 * The tube at hand.
 */
candidate: TubeView, 
/**
 * Best first; within a grade the scarcest original first, for there it helps most.
 */
ranked: Array<Ranked>, 
/**
 * Wanted types that are not in the book.
 */
not_found: Array<string>, };

/**
 * The set.
 */
export type LineUpAnswer = { 
/**
 * One verdict for the set.
 */
verdict: Verdict, 
/**
 * How the heaters were taken to be fed: "series", "parallel", "battery"; empty when that is not known.
 */
supply: string, 
/**
 * The same in words, and why.
 */
supply_words: string, 
/**
 * Each type, in the order given.
 */
tubes: Array<LineUpTube>, 
/**
 * Words that look like types and are not in the book.
 */
not_found: Array<string>, };

/**
 * One type of the set.
 */
export type LineUpTube = { 
/**
 * As it was written.
 */
typed: string, 
/**
 * The type as the book writes it.
 */
type: string, 
/**
 * How many of it the set has.
 */
count: number, 
/**
 * "pentode, remote cut-off".
 */
is: string, 
/**
 * `yes`: it can be had; `care`: by another type; `no`: neither; `unknown`: the book does not say.
 */
mark: Mark, 
/**
 * Whether the claim that it cannot be had holds, in one sentence.
 */
says: string, 
/**
 * Other markings it is sold under.
 */
names: Array<string>, 
/**
 * How many types go in as they stand, differences or not.
 */
plug_in: number, 
/**
 * How many go in after changes.
 */
after_changes: number, 
/**
 * The best few.
 */
best: Array<Ranked>, };

/**
 * The string solved.
 */
export type HeaterStringAnswer = { 
/**
 * The answer in one sentence.
 */
verdict: Verdict, 
/**
 * The figures that decide.
 */
reasons: Array<Finding>, 
/**
 * What to do, in order.
 */
changes: Array<Change>, 
/**
 * What to measure afterwards.
 */
measure: Array<string>, 
/**
 * Everything looked at.
 */
findings: Array<Finding>, 
/**
 * Warnings that belong to this answer.
 */
cautions: Array<Caution>, 
/**
 * Line volts rms (of the winding, when the heaters are in parallel).
 */
line_v: number, 
/**
 * Sum of the rated volts, resistors in the list included at the string's current.
 */
sum_v: number, 
/**
 * Current in the string as fitted (or out of the winding), amperes.
 */
current_a: number, 
/**
 * Volts on the dropper fitted.
 */
dropper_v: number, 
/**
 * Each part in order.
 */
heaters: Array<HeaterRow>, 
/**
 * The dropper the string needs on this line; absent when it needs none, or adds up to more than the line.
 */
dropper?: Dropper, 
/**
 * Other ways than a dropper: a capacitor, a diode. Each with what it costs.
 */
alternatives: Array<Change>, 
/**
 * Ways to a line the set is not made for; empty when `designed_v` is not given or agrees.
 */
remedies: Array<Change>, 
/**
 * From cold heaters on, a point a second, with the changes made; empty in parallel.
 */
warm_up: Array<WarmUpPoint>, };

/**
 * One heater of the string.
 */
export type HeaterRow = { 
/**
 * The type as found in the book.
 */
type: string, 
/**
 * Rated volts.
 */
rated_v: number, 
/**
 * Rated amperes.
 */
rated_a: number, 
/**
 * Volts it takes in this string.
 */
v: number, 
/**
 * That as a percentage of its rating.
 */
percent: number, 
/**
 * Its heating power as a percentage of its rating.
 */
power_percent: number, 
/**
 * How it comes out: within 5 % ok, within 10 % differs, beyond that needs a change; above 150 % it fails, and the figures
 * say no more than that.
 */
outcome: Outcome, 
/**
 * The most volts between heater and cathode here, crest, with the cathode at chassis (a rectifier's at B+); absent where there is no
 * cathode.
 */
heater_cathode_v?: number, };

/**
 * The string at one moment after switching on.
 */
export type WarmUpPoint = { 
/**
 * Seconds after switching on.
 */
s: number, 
/**
 * Amperes in the string.
 */
a: number, 
/**
 * Volts across each part, in order.
 */
v: Array<number>, };

/**
 * The resistor in series with the string.
 */
export type Dropper = { 
/**
 * Exact ohms for rated current.
 */
exact_ohm: number, 
/**
 * Preferred value to fit, ohms.
 */
ohm: number, 
/**
 * Heat in it, watts.
 */
dissipates_w: number, 
/**
 * Rating to buy, watts: at least twice that, from the sizes sold.
 */
rated_w: number, };

/**
 * What to fit and what it does.
 */
export type RectifierAnswer = { 
/**
 * The answer in one sentence.
 */
verdict: Verdict, 
/**
 * The figures that decide, one or two.
 */
reasons: Array<Finding>, 
/**
 * What to do, in order.
 */
changes: Array<Change>, 
/**
 * What to measure afterwards.
 */
measure: Array<string>, 
/**
 * Everything looked at.
 */
findings: Array<Finding>, 
/**
 * Warnings that belong to this answer.
 */
cautions: Array<Caution>, 
/**
 * What was assumed, because it was not given.
 */
assumed: Array<string>, 
/**
 * B+ aimed at, volts.
 */
target_v: number, 
/**
 * The diode.
 */
diode: DiodeChoice, 
/**
 * The resistor; absent when none is needed beyond the surge resistor fitted.
 */
resistor?: ResistorChoice, 
/**
 * The set at line -10 %, as given, +10 %.
 */
lines: Array<LineCase>, 
/**
 * What the first filter capacitor sees.
 */
first_filter: FilterCapacitor, 
/**
 * Neighbouring resistor values.
 */
sweep: Array<SweepPoint>, 
/**
 * One cycle at nominal line.
 */
waveform: Array<WaveformPoint>, 
/**
 * The first minute after switching on.
 */
start: Array<StartPoint>, 
/**
 * What goes when a rectifier tube goes: heater volts, lamp, delay.
 */
lost: Array<Finding>, 
/**
 * What the volts measured mean; empty when none are given.
 */
reading: Array<Finding>, 
/**
 * The other rectifier tube asked about; empty when none is. Then `verdict`, `reasons` and `changes` are about it, and diode and
 * resistor are the way without a tube.
 */
tube_swap: Array<Finding>, 
/**
 * The filaments fed from B+, before and after; empty when none are.
 */
filaments: Array<Finding>, };

/**
 * The set solved at one line voltage with the parts chosen.
 */
export type LineCase = { 
/**
 * "low", "nominal" or "high".
 */
line: string, 
/**
 * Line volts rms.
 */
line_v: number, 
/**
 * First filter before the tubes draw: the crest of the line, volts.
 */
cold_v: number, 
/**
 * First filter warm, mean volts.
 */
warm_v: number, 
/**
 * After the filter resistor, warm, mean volts; absent when there is none, or its share of the load is not known.
 */
filtered_v?: number, 
/**
 * Ripple on the first filter, peak to peak volts.
 */
ripple_v: number, 
/**
 * Ripple on the second filter, peak to peak volts.
 */
filtered_ripple_v?: number, 
/**
 * Mean current, milliamps.
 */
dc_ma: number, 
/**
 * Rms of the current pulses through diode and resistor, milliamps.
 */
rms_ma: number, 
/**
 * Crest of the pulses, amperes.
 */
peak_a: number, 
/**
 * Worst switch-on current, amperes.
 */
inrush_a: number, 
/**
 * Heat in the chosen resistor, watts, from the rms current.
 */
resistor_w: number, 
/**
 * Ripple current in the first filter capacitor, milliamps rms.
 */
capacitor_ma: number, };

/**
 * The diode to fit.
 */
export type DiodeChoice = { 
/**
 * JEDEC number.
 */
name: string, 
/**
 * Its peak inverse volts.
 */
peak_inverse_v: number, 
/**
 * The peak inverse volts the place can put on it at high line.
 */
needed_inverse_v: number, 
/**
 * Its mean forward amperes.
 */
forward_a: number, 
/**
 * Its surge rating, amperes for one half cycle.
 */
surge_a: number, };

/**
 * The series resistor to fit.
 */
export type ResistorChoice = { 
/**
 * The preferred value (E12) to fit, ohms, in addition to what is fitted already.
 */
ohm: number, 
/**
 * The exact value that gives the target, ohms.
 */
exact_ohm: number, 
/**
 * Lower end of the band the uncertain original leaves, ohms.
 */
least_ohm: number, 
/**
 * Upper end of that band, ohms.
 */
most_ohm: number, 
/**
 * Heat at nominal line, watts.
 */
dissipates_w: number, 
/**
 * Rating to buy, watts: at least twice the heat at high line, from the sizes sold.
 */
rated_w: number, 
/**
 * One switch-on's energy, joules, that it has to stand.
 */
pulse_j: number, 
/**
 * A value of the finer series E24 whose B+ is clearly closer to the target; absent where there is none.
 */
closer?: CloserResistor, };

/**
 * A value of E24 in place of the one of E12, which a drawer is more likely to hold.
 */
export type CloserResistor = { 
/**
 * Ohms, in addition to what is fitted already.
 */
ohm: number, 
/**
 * First filter warm with it, volts.
 */
warm_v: number, 
/**
 * Rating to buy, watts.
 */
rated_w: number, };

/**
 * What the first filter capacitor has to stand.
 */
export type FilterCapacitor = { 
/**
 * Worst volts across it (in a full-wave doubler across each of the two): cold start at high line.
 */
worst_v: number, 
/**
 * The lowest rated voltage that is enough.
 */
least_rated_v: number, 
/**
 * Today's ratings judged one by one.
 */
ratings: Array<RatedVoltage>, };

/**
 * One rated voltage judged.
 */
export type RatedVoltage = { 
/**
 * Rated volts.
 */
rated_v: number, 
/**
 * Whether it may be used.
 */
enough: boolean, 
/**
 * Why, in a few words.
 */
says: string, };

/**
 * How the warm B+ and the heat depend on the resistor.
 */
export type SweepPoint = { 
/**
 * Series resistor, ohms.
 */
ohm: number, 
/**
 * First filter warm, volts.
 */
warm_v: number, 
/**
 * Heat in it, watts.
 */
dissipates_w: number, };

/**
 * One point of one cycle in the steady state, for drawing.
 */
export type WaveformPoint = { 
/**
 * Milliseconds into the cycle.
 */
ms: number, 
/**
 * First filter, volts.
 */
first_filter_v: number, 
/**
 * Diode current, milliamps.
 */
current_ma: number, };

/**
 * B+ at one moment after switching on, with silicon.
 */
export type StartPoint = { 
/**
 * Seconds after switching on.
 */
s: number, 
/**
 * First filter, volts.
 */
first_filter_v: number, 
/**
 * After the filter resistor or choke, volts.
 */
filtered_v?: number, };

/**
 * What to buy, and why.
 */
export type CapacitorAnswer = { 
/**
 * The answer in one sentence.
 */
verdict: Verdict, 
/**
 * The figures that decide.
 */
reasons: Array<Finding>, 
/**
 * What to do, in order.
 */
changes: Array<Change>, 
/**
 * What to measure.
 */
measure: Array<string>, 
/**
 * Everything looked at.
 */
findings: Array<Finding>, 
/**
 * Warnings that belong to this answer.
 */
cautions: Array<Caution>, 
/**
 * What was assumed, because it was not given.
 */
assumed: Array<string>, 
/**
 * Every way the marking can be read.
 */
readings: Array<CapacitorReading>, 
/**
 * The part for each section of the likeliest reading.
 */
stand_ins: Array<CapacitorStandIn>, 
/**
 * Touch current through the part offered, milliamps, for a part from line to chassis.
 */
touch_ma?: number, };

/**
 * One way the marking can be read; the likeliest first.
 */
export type CapacitorReading = { 
/**
 * As the trade writes it: "0.02 uF (20 nF), 400 V".
 */
says: string, 
/**
 * Farads of each section.
 */
sections_f: Array<number>, 
/**
 * Rated volts of each section, when marked.
 */
rated_v: Array<number>, 
/**
 * Tolerance in percent below and above, when marked or customary.
 */
tolerance_percent?: [number, number], 
/**
 * What was assumed to read it so.
 */
assumed: Array<string>, };

/**
 * The part to buy for one section.
 */
export type CapacitorStandIn = { 
/**
 * Which section of the reading it belongs to, counted from 1.
 */
section: number, 
/**
 * How it is joined to the other part of the same section, when one part will not do.
 */
joined?: Joined, 
/**
 * Value as the trade writes it: "0.022 uF (22 nF)".
 */
value: string, 
/**
 * Farads.
 */
farad: number, 
/**
 * Difference from the old value, percent; of both together, when two are joined.
 */
difference_percent: number, 
/**
 * Rated volts to ask for: "630 V DC", "250 V AC".
 */
rating: string, 
/**
 * Rated volts as a number.
 */
rated_v: number, 
/**
 * Dielectric or construction: "polypropylene film", "aluminium electrolytic, 105 C".
 */
dielectric: string, 
/**
 * Safety class of IEC 60384-14, where the place asks for one: "Y2".
 */
safety_class?: string, 
/**
 * The code printed on the new part: "223", "22n".
 */
marked: string, 
/**
 * How to ask for it in a shop: "film 0.047 uF (47 nF), 630 V DC, marked 473J 630V or 47n".
 */
shop: string, };

/**
 * How several parts make up one section.
 */
export type Joined = "parallel" | "series";

/**
 * Keep it or replace it, and by what.
 */
export type ResistorAnswer = { 
/**
 * The answer in one sentence.
 */
verdict: Verdict, 
/**
 * The figures that decide.
 */
reasons: Array<Finding>, 
/**
 * What to do, in order.
 */
changes: Array<Change>, 
/**
 * What to measure.
 */
measure: Array<string>, 
/**
 * Everything looked at.
 */
findings: Array<Finding>, 
/**
 * Warnings that belong to this answer.
 */
cautions: Array<Caution>, 
/**
 * What was assumed, because it was not given.
 */
assumed: Array<string>, 
/**
 * Every way the marking can be read.
 */
readings: Array<ResistorReading>, 
/**
 * The parts that can stand in, the best first.
 */
stand_ins: Array<ResistorStandIn>, };

/**
 * One way the marking can be read; the likeliest first.
 */
export type ResistorReading = { 
/**
 * As the trade writes it: "500 kohm, 20 %".
 */
says: string, 
/**
 * Ohms.
 */
ohm: number, 
/**
 * Tolerance in percent, when marked or customary.
 */
tolerance_percent?: number, 
/**
 * Watts, when marked.
 */
watts?: number, 
/**
 * What was assumed to read it so.
 */
assumed: Array<string>, };

/**
 * The part to buy.
 */
export type ResistorStandIn = { 
/**
 * Which section it belongs to, counted from 1; of several with the same number any one does, the best first.
 */
section: number, 
/**
 * Value as the trade writes it: "470 kohm", "2 x 240 kohm in series".
 */
value: string, 
/**
 * Ohms; of all together, when there are several in series.
 */
ohm: number, 
/**
 * How many alike in series make it up.
 */
in_series: number, 
/**
 * Difference from the old value, percent.
 */
difference_percent: number, 
/**
 * Rating to buy, watts, of each.
 */
rated_w: number, 
/**
 * Construction: "metal film", "wire-wound, flameproof".
 */
construction: string, 
/**
 * The most volts it may see, all together; absent where the maker's sheet has to be asked.
 */
working_v?: number, 
/**
 * The bands of the new part; none where the value is printed on it.
 */
bands: Array<string>, 
/**
 * How to ask for it in a shop: "470 kohm, 1/2 W metal film 1 %, bands yellow violet black orange brown".
 */
shop: string, };

/**
 * Every reading, and how to tell them apart.
 */
export type ColourCodeAnswer = { 
/**
 * The answer in one sentence.
 */
verdict: Verdict, 
/**
 * Readings of the colours as given, the likeliest first.
 */
readings: Array<ColourReading>, 
/**
 * Readings that would be right if one mark had faded (brown, red and orange; violet, grey and blue), the likeliest first.
 */
faded: Array<ColourReading>, 
/**
 * Colours that cannot stand where they are, one sentence each.
 */
impossible: Array<string>, 
/**
 * What to look at and measure.
 */
measure: Array<string>, };

/**
 * One way the colours can be read.
 */
export type ColourReading = { 
/**
 * As the trade writes it: "0.0047 uF (4.7 nF), 10 %, 300 V"; `capacitor` and `resistor` read it as a marking.
 */
says: string, 
/**
 * Ohms, or farads of a capacitor.
 */
value: number, 
/**
 * What a capacitor of this layout is made of.
 */
kind?: CapacitorKind, 
/**
 * The layout: "JAN mica, six dots".
 */
layout: string, 
/**
 * What each mark says in that layout: "red: times 100".
 */
marks: Array<string>, 
/**
 * What to know of this reading.
 */
notes: Array<string>, };

/**
 * Every line, and what to buy.
 */
export type PartsListAnswer = { 
/**
 * The answer in one sentence.
 */
verdict: Verdict, 
/**
 * Every line that is not blank, in its order.
 */
lines: Array<ListLine>, 
/**
 * What to buy.
 */
shopping: Array<ShoppingItem>, 
/**
 * Warnings that belong to the parts, each once.
 */
cautions: Array<Caution>, };

/**
 * What became of a line.
 */
export type LineState = "buy" | "leave" | "check" | "other" | "unread";

/**
 * One line of the list.
 */
export type ListLine = { 
/**
 * Its number, counted from 1 in the lines as given.
 */
line: number, 
/**
 * As it was pasted.
 */
text: string, 
/**
 * What became of it.
 */
state: LineState, 
/**
 * Its reference: "C4"; empty when it has none.
 */
reference: string, 
/**
 * As it was read: "0.02 uF (20 nF), 400 V"; empty when it was not.
 */
reads: string, 
/**
 * What to buy for it, when it is to be bought.
 */
buy: Array<string>, 
/**
 * What to know of it.
 */
says: string, 
/**
 * Words of the line that were not understood and not used.
 */
unused: Array<string>, };

/**
 * One entry of the shopping list.
 */
export type ShoppingItem = { 
/**
 * How to ask for it.
 */
shop: string, 
/**
 * How many.
 */
count: number, 
/**
 * For which lines.
 */
lines: Array<number>, };

/**
 * The whole set, answered.
 */
export type SheetAnswer = { 
/**
 * The set in one sentence: can it be brought back, and with how much work?
 */
verdict: Verdict, 
/**
 * Faults and open questions, the most dangerous first.
 */
trouble: Array<SheetTrouble>, 
/**
 * Every tube line, in order.
 */
tubes: Array<SheetTubeAnswer>, 
/**
 * The heater string, or the load of the winding; absent while too little is told.
 */
heaters?: HeaterStringAnswer, 
/**
 * The supply; absent while too little is told.
 */
supply?: RectifierAnswer, 
/**
 * Every part line, in order.
 */
parts: Array<SheetPartAnswer>, 
/**
 * The figures of the whole set.
 */
totals: Array<SheetTotal>, 
/**
 * What to buy, like with like.
 */
shopping: Array<SheetPurchase>, 
/**
 * What to do and to measure when it is first switched on, in order.
 */
bring_up: Array<BringUpStep>, 
/**
 * Warnings that belong to this set, each once.
 */
cautions: Array<Caution>, };

/**
 * How dangerous a trouble is; in this order they are shown.
 */
export type Danger = "person" | "set" | "work" | "open";

/**
 * Which line of the sheet something is about.
 */
export type SheetSection = "tubes" | "heaters" | "supply" | "parts";

/**
 * A fault or an open question of the set.
 */
export type SheetTrouble = { 
/**
 * How dangerous.
 */
danger: Danger, 
/**
 * The mark to draw.
 */
mark: Mark, 
/**
 * Of which part of the sheet.
 */
section: SheetSection, 
/**
 * Which line of it, counted from 0; absent for the whole.
 */
at?: number, 
/**
 * What it is about, as a person would call it: "V3 12SQ7", "C4", "Heater string".
 */
place: string, 
/**
 * One plain sentence.
 */
says: string, };

/**
 * One tube line answered.
 */
export type SheetTubeAnswer = { 
/**
 * Which line, counted from 0.
 */
at: number, 
/**
 * The type as the book writes it, or the item as it was typed.
 */
type: string, 
/**
 * Whether it is a tube; else it is a resistor, lamp or the like in the string.
 */
tube: boolean, 
/**
 * Whether another is looked for.
 */
wanted: boolean, 
/**
 * The mark to draw.
 */
mark: Mark, 
/**
 * A few words: "Stays in.", "Look for one of 4 markings.", "Not in the book."
 */
word: string, 
/**
 * One plain sentence.
 */
says: string, 
/**
 * Markings of the same tube that need no thought: its own first.
 */
markings: Array<string>, 
/**
 * What else can go in, best first; judged in this set's own socket.
 */
stand_ins: Array<Ranked>, 
/**
 * The type that was chosen to go in, judged; absent when none is.
 */
fitted?: Ranked, };

/**
 * One part line answered.
 */
export type SheetPartAnswer = { 
/**
 * Which line, counted from 0.
 */
at: number, 
/**
 * "C4"; empty when it has none.
 */
reference: string, 
/**
 * What becomes of it.
 */
state: LineState, 
/**
 * The mark to draw.
 */
mark: Mark, 
/**
 * As it was read: "0.02 uF (20 nF), 400 V"; empty when it was not.
 */
reads: string, 
/**
 * What to buy for it; empty when nothing is.
 */
buy: Array<string>, 
/**
 * What to know of it.
 */
says: string, };

/**
 * A figure of the whole set.
 */
export type SheetTotal = { 
/**
 * What it is: "Heater string", "B+ cold", "B+ warm", "Tubes to find", "Parts to buy".
 */
what: string, 
/**
 * Its value with its unit: "0.150 A, 117 V of 120 V", "167 V", "12".
 */
value: string, 
/**
 * How it came out.
 */
mark: Mark, };

/**
 * One entry of the shopping list.
 */
export type SheetPurchase = { 
/**
 * Under which heading: "Tubes", "Film capacitors", "Electrolytics", "Safety capacitors", "Resistors", "Rectifier and fuse".
 */
group: string, 
/**
 * How to ask for it.
 */
shop: string, 
/**
 * What is printed on a new one: "223", "brown black orange gold"; empty when nothing helps to know it by.
 */
code: string, 
/**
 * How many.
 */
count: number, 
/**
 * For which lines, as a person would call them: "C4", "V2"; with the name of the set when there are several.
 */
places: Array<string>, 
/**
 * How many of it are in stock.
 */
in_stock: number, };

/**
 * When something is done on the way to the first sound.
 */
export type BringUpMoment = "before_power" | "first_power" | "cold" | "warm";

/**
 * One step of the bring-up.
 */
export type BringUpStep = { 
/**
 * Names the point, the same for the same point as long as the sheet has it: `b_plus_first`, `heater.2`.
 */
key: string, 
/**
 * When.
 */
moment: BringUpMoment, 
/**
 * What to do or where to measure, one sentence.
 */
says: string, 
/**
 * What to expect, with its unit: "150 to 172 V"; empty when nothing is measured or nothing can be told.
 */
expect: string, 
/**
 * What a difference means, or what to do if it is not so.
 */
otherwise: string, 
/**
 * Whether a figure is to be written down.
 */
measure: boolean, 
/**
 * What was read there, and how it comes out; absent while nothing was.
 */
read?: BringUpReading, };

/**
 * A reading held against what was expected.
 */
export type BringUpReading = { 
/**
 * What was read.
 */
value: number, 
/**
 * How it comes out.
 */
mark: Mark, 
/**
 * One plain sentence.
 */
says: string, };

/**
 * The lines of a sheet that were found in a text. Every line that is not blank is in one of the lists.
 */
export type SheetLinesAnswer = { 
/**
 * The text in one sentence: "5 tubes, 25 parts, 1 line not understood."
 */
verdict: Verdict, 
/**
 * Tubes and items of a heater string, in order.
 */
tubes: Array<SheetTube>, 
/**
 * Capacitors and resistors, in order; a line that cannot be read is one of them, with its text as the marking.
 */
parts: Array<SheetPart>, 
/**
 * Lines that were not understood, with why; they are among the parts too.
 */
doubtful: Array<string>, };

/**
 * Sheets as a file: what was written, or what was read.
 */
export type SheetFileAnswer = { 
/**
 * The file, JSON with its format and version.
 */
text: string, 
/**
 * The same as plain words, to be sent to somebody who has no such page.
 */
words: string, 
/**
 * The sheets in it.
 */
sheets: Array<JobSheet>, 
/**
 * What in a sheet could not be taken, and was left out: which field, what was found, what is accepted.
 */
faults: Array<ErrorAnswer>, };

/**
 * Everything that is looked for.
 */
export type WantsAnswer = { 
/**
 * In one sentence.
 */
verdict: Verdict, 
/**
 * Type by type, the hardest to find first.
 */
wants: Array<Want>, };

/**
 * One type that is looked for.
 */
export type Want = { 
/**
 * The type.
 */
type: string, 
/**
 * How many sockets want it.
 */
count: number, 
/**
 * In which sets: "kitchen set, V2".
 */
places: Array<string>, 
/**
 * What to take, grade by grade, the best first: good in every one of these sockets.
 */
take: Array<WantedMarkings>, 
/**
 * What of it is in stock.
 */
in_stock: Array<StockHeld>, 
/**
 * What goes into some of the sockets only, or better into some than `take` says.
 */
only?: Array<OnlyThere>, 
/**
 * What to know before one buys: "Only in the kitchen set, in the bedroom set it needs a change."
 */
says: string, };

/**
 * Markings that are as good as each other.
 */
export type WantedMarkings = { 
/**
 * How good.
 */
grade: Grade, 
/**
 * "Same tube", "Yes, as it stands."
 */
word: string, 
/**
 * The mark to draw.
 */
mark: Mark, 
/**
 * What is printed on the glass.
 */
markings: Array<string>, 
/**
 * How many more types do only after changes; those with the least work are named.
 */
more?: number, };

/**
 * Markings that do for some of the sockets.
 */
export type OnlyThere = { 
/**
 * How good, in the worst of these sockets.
 */
grade: Grade, 
/**
 * "Yes, as it stands."
 */
word: string, 
/**
 * The mark to draw.
 */
mark: Mark, 
/**
 * What is printed on the glass.
 */
markings: Array<string>, 
/**
 * How many more types do there only after changes.
 */
more?: number, 
/**
 * In which of the places.
 */
places: Array<string>, };

/**
 * Some of a type that is in stock.
 */
export type StockHeld = { 
/**
 * The marking as it stands in the stock.
 */
marking: string, 
/**
 * How many.
 */
count: number, 
/**
 * Where they lie.
 */
place: string, 
/**
 * What a tester said of them.
 */
tested: string, 
/**
 * As what grade it serves.
 */
grade: Grade, 
/**
 * In which places, when not in all.
 */
only?: Array<string>, };

/**
 * What lies on the table, type by type.
 */
export type OnTheTableAnswer = { 
/**
 * "Take 12SG7." "For kitchen set."
 */
verdict: Verdict, 
/**
 * Every type that was typed, those that serve a set first.
 */
found: Array<TableFind>, };

/**
 * One type on the table.
 */
export type TableFind = { 
/**
 * As it was typed.
 */
typed: string, 
/**
 * The type in the book; empty when it is not there.
 */
type: string, 
/**
 * The mark to draw.
 */
mark: Mark, 
/**
 * "Take it." "Nothing of mine wants it." "Not in the book."
 */
word: string, 
/**
 * One plain sentence.
 */
says: string, 
/**
 * Which sockets of my sets it serves, the best first; wanted ones before others. Changes are thought of only where a tube is wanted.
 */
serves: Array<TableServes>, 
/**
 * How many further sockets it serves.
 */
more?: number, 
/**
 * How many of it, under any of its names, are in stock.
 */
in_stock: number, 
/**
 * Near names, when it was not found.
 */
near?: Array<string>, };

/**
 * A socket that a type on the table serves.
 */
export type TableServes = { 
/**
 * The set.
 */
sheet: string, 
/**
 * Which sheet, counted from 0.
 */
at: number, 
/**
 * Where in it: "V2"; empty when the line does not say.
 */
place: string, 
/**
 * What the set wants there.
 */
wants: string, 
/**
 * Whether that set is looking for one.
 */
wanted: boolean, 
/**
 * As what grade.
 */
grade: Grade, 
/**
 * "Yes, as it stands."
 */
word: string, 
/**
 * The sentence that decides.
 */
says: string, };

/**
 * One shopping list for several sets.
 */
export type ShoppingAnswer = { 
/**
 * In one sentence.
 */
verdict: Verdict, 
/**
 * What to buy, like with like.
 */
shopping: Array<SheetPurchase>, 
/**
 * What has to be looked at before anything is bought for it: "kitchen set, C4: ...".
 */
open: Array<string>, 
/**
 * Warnings, each once.
 */
cautions: Array<Caution>, };

/**
 * What is in stock.
 */
export type StockAnswer = { 
/**
 * "300 tubes of 84 types, 40 other parts."
 */
says: string, 
/**
 * The rows that were found, in the order of their markings.
 */
rows: Array<StockRow>, 
/**
 * How many others there are.
 */
more: number, };

/**
 * One row of the stock.
 */
export type StockRow = { 
/**
 * Names the row: its marking and place.
 */
key: string, 
/**
 * What is printed on it.
 */
marking: string, 
/**
 * The type in the book; empty when it is none, as of a capacitor.
 */
type: string, 
/**
 * How many.
 */
count: number, 
/**
 * Where they lie.
 */
place: string, 
/**
 * What a tester said.
 */
tested: string, 
/**
 * Anything to remember.
 */
note: string, };

/**
 * What loading a file does: done in `loaded`, foreseen in `preview`.
 */
export type LoadReport = { 
/**
 * The table.
 */
table: string, 
/**
 * Rows read from the file.
 */
rows: number, 
/**
 * How many types or names are new.
 */
new: number, 
/**
 * How many were in the book and are changed by the file.
 */
changed: number, 
/**
 * How many the file has as the book has them.
 */
kept: number, 
/**
 * Their names, the first hundred of each.
 */
new_names: Array<string>, 
/**
 * See `new_names`.
 */
changed_names: Array<string>, 
/**
 * The cells that change in types or names that were in the book, the first two hundred.
 */
changes: Array<ChangeReport>, 
/**
 * How many more cells change.
 */
more_changes: number, 
/**
 * What was wrong, the first two hundred.
 */
faults: Array<FaultReport>, 
/**
 * How many more faults there were.
 */
more_faults: number, 
/**
 * What does not agree in the new and changed types, the first two hundred sentences: advice, nothing was refused for it.
 */
advice: Array<string>, 
/**
 * How much more advice there was.
 */
more_advice: number, 
/**
 * One plain sentence.
 */
says: string, };

/**
 * One fault of a file.
 */
export type FaultReport = { 
/**
 * The file: "tubes.csv".
 */
file: string, 
/**
 * Its line, counted from 1; 0 when the whole file is meant.
 */
line: number, 
/**
 * The column; empty when the row or file is meant.
 */
column: string, 
/**
 * What was found.
 */
found: string, 
/**
 * What is accepted.
 */
accepted: string, 
/**
 * All of it as one sentence.
 */
says: string, };

/**
 * One cell that a file changes.
 */
export type ChangeReport = { 
/**
 * The type or name.
 */
name: string, 
/**
 * The unit of the tube, such as "1" or "1-2", or where a part in stock lies; empty when the row does not say.
 */
unit: string, 
/**
 * The column.
 */
column: string, 
/**
 * What the book says; empty when it says nothing.
 */
old: string, 
/**
 * What the file says; empty when it takes the figure away.
 */
new: string, };

/**
 * How well a candidate fits, best first.
 */
export type Grade = "same" | "as_is" | "as_is_different" | "after_changes" | "no" | "unknown";

/**
 * The mark beside a verdict, so that it is never told by colour alone.
 */
export type Mark = "yes" | "care" | "no" | "unknown";

/**
 * How one check came out. `Unknown` never passes.
 */
export type Outcome = "ok" | "differs" | "needs_change" | "unknown" | "fails";

/**
 * One plain sentence that answers the question, with its mark.
 */
export type Verdict = { 
/**
 * The mark to draw.
 */
mark: Mark, 
/**
 * A few words: "Yes, as it stands."
 */
word: string, 
/**
 * The sentence in full.
 */
says: string, };

/**
 * One thing looked at: figure against figure and one plain sentence.
 */
export type Finding = { 
/**
 * What was looked at, as one lower-case word or two: "heater", "ratings", "inrush".
 */
check: string, 
/**
 * How it came out.
 */
outcome: Outcome, 
/**
 * The figure asked for, with its unit.
 */
wanted?: string, 
/**
 * The figure found, with its unit.
 */
found?: string, 
/**
 * One plain sentence.
 */
says: string, };

/**
 * One wire to move at a socket, pins counted from below.
 */
export type Move = { 
/**
 * The electrode in words: "plate", "cathode of the second triode".
 */
electrode: string, 
/**
 * Where the wire is now: "2", "cap".
 */
from: string, 
/**
 * Where it has to go.
 */
to: string, };

/**
 * A part to fit, with its figures.
 */
export type PartToFit = { 
/**
 * What it is: "wire-wound resistor", "silicon diode 1N4007".
 */
part: string, 
/**
 * Its value as the trade writes it: "68 ohm", "0.022 uF (22 nF, marked 223)".
 */
value: string, 
/**
 * What it turns into heat, watts; absent where it has no meaning.
 */
dissipates_w?: number, 
/**
 * The rating to buy, as sold: "5 W", "250 V", "class Y2".
 */
rating: string, };

/**
 * Something that has to be done for the answer to hold.
 */
export type Change = { 
/**
 * What to do, one sentence.
 */
says: string, 
/**
 * The part it takes, if any.
 */
part?: PartToFit, 
/**
 * The wires it moves.
 */
moves?: Array<Move>, };

/**
 * A warning that belongs to an answer.
 */
export type Caution = { 
/**
 * What it is about, in a word or two; the same topic is shown once.
 */
topic: string, 
/**
 * What to know and do.
 */
says: string, 
/**
 * Where it comes from: a publication, or "common practice, no source".
 */
source: string, };

