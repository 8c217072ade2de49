// Turns what was filled in into questions for the core. Only text to numbers happens here; whether a number makes sense the core
// says, and what it cannot read comes back as an answer that names the field.

import { FIELDS, MARKS, UNTOLD } from "./sheets.js";

/** @typedef {import("./answers").Question} Question */
/** @typedef {import("./answers").SocketQuestion} SocketQuestion */
/** @typedef {import("./sheets.js").Sheet} Sheet */
/** @typedef {import("./sheets.js").Fields} Fields */

/**
 * A number as typed, with a point or a comma; nothing when left empty. Text that is no number goes to the core as it is, which then
 * says what was found and what is accepted.
 * @param {string | undefined} text
 * @returns {number | undefined}
 */
export const number = (text) => {
  const trimmed = (text ?? "").trim();
  if (!trimmed) return undefined;
  const value = Number(trimmed.replace(",", "."));
  return Number.isFinite(value) ? value : /** @type {any} */ (trimmed);
};

/** Ohms as a meter shows them: 560k, 1.2 M, 47. @param {string | undefined} text @returns {number | undefined} */
export const ohms = (text) => {
  const [, figure, multiple] = /^\s*([\d.,]+)\s*(k|m|meg)\s*(?:ohms?|Ω)?\s*$/i.exec(text ?? "") ?? [];
  const value = number(figure);
  if (typeof value !== "number") return number((text ?? "").replace(/\s*(ohms?|Ω)\s*$/i, ""));
  // Rounded, so that 0.56 M does not become 560000.0000000001.
  return Number((value * (multiple.toLowerCase() === "k" ? 1e3 : 1e6)).toPrecision(12));
};

/** Which of the colour codes is read; the commonest unless said. @param {Fields} fields */
export const codeOf = ({ code }) => (code && code in MARKS ? code : "resistor_bands");
/** Codes that stand on resistors. @param {string} code */
export const onResistor = (code) => code === "resistor_bands" || code === "body_end_dot";
/** The colours as far as they are told. @param {Fields} fields */
export const coloursOf = ({ colours }) => list(colours?.toLowerCase());

/** Types separated by spaces or commas. @param {string | undefined} text */
export const list = (text) => (text ?? "").split(/[\s,;]+/).filter(Boolean);

/**
 * What is in a heater string, item by item: tubes stand by themselves, while resistors, cords, lamps, ballasts and thermistors take
 * several words each, so that a line break or a comma between them is welcome but not needed.
 */
const ITEM = new RegExp(
  [
    String.raw`(?:lamp\s+|#)[\d.]+\s*v[\s,]*[\d.]+\s*m?a\b(?:\s+with\s+[\d.]+\s*(?:ohms?\b|Ω))?`,
    String.raw`(?:lamp\s+#?|#)[^\s,;]+(?:\s+with\s+[\d.]+\s*(?:ohms?\b|Ω))?`,
    String.raw`ballast\s+[^\s,;]+`,
    String.raw`(?:ntc|thermistor)\s+[\d./]+\s*(?:ohms?\b|Ω)?`,
    String.raw`(?:(?:(?:line|mains)\s+)?(?:cord|lead)\s+)?[\d.]+\s*(?:ohms?\b|Ω)`,
    String.raw`[^\s,;]+`,
  ].join("|"),
  "gi",
);

/** The items of a heater string, in the order they are wired. @param {string | undefined} text @returns {string[]} */
export const items = (text) => (text ?? "").match(ITEM)?.map((item) => item.replace("Ω", " ohm")) ?? [];

/** One of these words, else nothing. @template {string} T @param {string | undefined} text @param {readonly T[]} words */
const oneOf = (text, words) => words.find((word) => word === text);

/** A record without the entries that are not given. @template {object} T @param {T} record @returns {T} */
const given = (record) =>
  /** @type {T} */ (Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined && value !== "")));

/** How the heaters are fed, as far as it is told. @param {Fields} fields @returns {import("./answers").SupplyQuestion | undefined} */
const supply = (fields) => {
  const others = list(fields.others);
  return {
    series: given({
      kind: /** @type {const} */ ("series"),
      amps: number(fields.string_a),
      line_v: number(fields.line_v),
      others: others.length ? others : undefined,
      chassis_side: number(fields.chassis_side),
      dropper_ohm: ohms(fields.dropper_ohm),
    }),
    parallel: given({
      kind: /** @type {const} */ ("parallel"),
      volts: number(fields.heater_v),
      spare_amps: number(fields.spare_a),
    }),
    battery: { kind: /** @type {const} */ ("battery") },
  }[fields.heaters ?? ""];
};

/** The fields of a place that are plain numbers, under the core's own names. */
const PLAIN = /** @type {const} */ (["plate_v", "screen_v", "plate_ma", "load_kohm", "b_plus_v", "tuned_khz", "tuned_pf", "load_ma"]);

/** @param {Fields} fields @returns {SocketQuestion | undefined} */
const socket = (fields) => {
  const ties = { none: [], some: list(fields.tie_pins).map((pin) => /** @type {number} */ (pin === "cap" ? 0 : number(pin))) };
  const told = given({
    supply: supply(fields),
    ...Object.fromEntries(PLAIN.map((name) => [name, number(fields[name])])),
    cathode_ohm: ohms(fields.cathode_ohm),
    first_filter_uf: number(fields.first_uf),
    secondary_v: number(fields.secondary_v),
    secondary_ohm: ohms(fields.secondary_ohm),
    tie_points: oneOf(fields.ties, ["none", "some"]) && ties[/** @type {"none" | "some"} */ (fields.ties)],
    agc: { yes: true, no: false }[fields.agc ?? ""],
  });
  return Object.keys(told).length ? told : undefined;
};

/** @param {Fields} fields @returns {import("./answers").OriginalRectifier | undefined} */
const original = (fields) => {
  if (fields.original === "selenium") return given({ kind: /** @type {const} */ ("selenium"), plates: number(fields.plates) });
  if (fields.original === "tube") {
    return given({ kind: /** @type {const} */ ("tube"), type: fields.type ?? "", drop_v: number(fields.drop_v), drop_ma: number(fields.drop_ma) });
  }
  return fields.original === "silicon" ? { kind: "silicon" } : undefined;
};

/** Sets whose rectifier hangs on a winding of a transformer, so that its volts and ohms are asked for. */
export const ON_WINDING = ["one_plate", "two_plates", "bridge"];

/** How the rectifiers of a common set are wired. @param {Fields} fields @returns {import("./answers").RectifierTopology | undefined} */
const topology = ({ wiring, doubler }) => {
  if (wiring === "doubler") return doubler === "half" ? "half_wave_doubler" : "full_wave_doubler";
  return wiring === "two_plates" ? "centre_tap" : oneOf(wiring, ["bridge"]);
};

/**
 * What still has to be filled in before a rectifier can be asked about; nothing when all is there. Of a portable the filaments are
 * asked for at once: a diode and resistor that suit the B+ alone could burn every tube.
 * @param {Fields} fields
 * @returns {"" | "rectifier" | "rectifier_type" | "rectifier_winding" | "rectifier_filaments"}
 */
export const missing = (fields) => {
  const has = (/** @type {string} */ name) => Boolean(fields[name]?.trim());
  if (!has("first_uf") || !["load_ma", "load_tubes", "load_ohm"].some(has)) return "rectifier";
  if (fields.original === "tube" && !has("type")) return "rectifier_type";
  if (ON_WINDING.includes(fields.wiring ?? "") && !(has("secondary_v") && has("secondary_ohm"))) return "rectifier_winding";
  return fields.wiring === "portable" && !(has("filament_tubes") && has("filament_ohm")) ? "rectifier_filaments" : "";
};

/** The winding the rectifier hangs on; of a doubler it may be the line itself. @param {Fields} fields */
const winding = (fields) =>
  ON_WINDING.includes(fields.wiring ?? "") || fields.wiring === "doubler"
    ? { secondary_v: number(fields.secondary_v), secondary_ohm: ohms(fields.secondary_ohm), primary_ohm: ohms(fields.primary_ohm) }
    : {};

/** A list of types, if there are any. @param {string | undefined} text */
const some = (text) => (list(text).length ? list(text) : undefined);

/** What is told of a supply, without the line it hangs on. @param {Fields} fields @returns {Partial<import("./answers").RectifierQuestion>} */
export const supplyOf = (fields) =>
  given({
    topology: topology(fields),
    ...winding(fields),
    original: original(fields),
    replacement: fields.original === "tube" ? fields.replacement?.trim() : undefined,
    first_filter_uf: number(fields.first_uf),
    load_ma: number(fields.load_ma),
    load_tubes: some(fields.load_tubes),
    load_ohm: ohms(fields.load_ohm),
    doubler_uf: fields.wiring === "doubler" ? number(fields.doubler_uf) : undefined,
    filament_tubes: fields.wiring === "portable" ? some(fields.filament_tubes) : undefined,
    filament_ohm: fields.wiring === "portable" ? ohms(fields.filament_ohm) : undefined,
    target_v: number(fields.target_v),
    filter_ohm: ohms(fields.filter_ohm),
    filter_henry: number(fields.filter_henry),
    second_filter_uf: number(fields.second_uf),
    after_filter_ma: number(fields.after_ma),
    fitted_ohm: ohms(fields.fitted_ohm),
    filter_rated_v: number(fields.rated_v),
    measured_v: number(fields.measured_v),
    measured_ripple_v: number(fields.measured_ripple_v),
  });

/**
 * The questions to put to the core, the main one first; none while too little is filled in.
 * @param {Sheet} sheet
 * @param {Fields} fields
 * @returns {Question[]}
 */
export const questions = (sheet, fields) => {
  const has = (/** @type {string} */ name) => Boolean(fields[name]?.trim());
  switch (sheet) {
    case "swap": {
      // A character that cannot be read: which types could it be?
      const worn = ["set", "have"].find((name) => fields[name]?.includes("?"));
      if (worn) return [{ ask: "search", text: fields[worn] }];
      if (has("set") && has("have")) {
        return [given({ ask: /** @type {const} */ ("swap"), original: fields.set, candidate: fields.have, socket: socket(fields) })];
      }
      if (has("set")) {
        return [
          { ask: "tube", type: fields.set },
          given({ ask: /** @type {const} */ ("candidates"), original: fields.set, socket: socket(fields) }),
        ];
      }
      return has("have") ? [{ ask: "tube", type: fields.have }] : [];
    }
    case "serves": {
      if (!has("have")) return [];
      const wanted = (fields.wanted ?? "").split(/[\n,;]+/).filter((text) => text.trim());
      return [
        given({
          ask: /** @type {const} */ ("serves"),
          candidate: fields.have,
          wanted: wanted.length ? wanted : undefined,
          socket: socket(fields),
        }),
      ];
    }
    case "lineup":
      return has("note") ? [given({ ask: /** @type {const} */ ("line_up"), note: fields.note, supply: supply(fields) })] : [];
    case "search":
      if (!FIELDS.search.some(has)) return [];
      return [
        given({
          ask: /** @type {const} */ ("search"),
          text: fields.text?.trim(),
          base: fields.base,
          pins: number(fields.pins),
          top_cap: { yes: true, no: false }[fields.top_cap ?? ""],
          heater_v: number(fields.heater_v),
          heater_a: number(fields.heater_a),
          function: fields.function,
        }),
      ];
    case "rectifier":
      if (missing(fields)) return [];
      return [
        given({
          ask: /** @type {const} */ ("rectifier"),
          .../** @type {import("./answers").RectifierQuestion} */ (supplyOf(fields)),
          line_v: number(fields.line_v),
          line_hz: number(fields.line_hz),
        }),
      ];
    case "heaters":
      if (!items(fields.tubes).length || (fields.fed === "winding" && !has("winding_v"))) return [];
      return [
        given({
          ask: /** @type {const} */ ("heater_string"),
          tubes: items(fields.tubes),
          ...(fields.fed === "winding"
            ? { winding_v: number(fields.winding_v), winding_a: number(fields.winding_a) }
            : {
                line_v: number(fields.line_v),
                line_hz: number(fields.line_hz),
                dropper_ohm: ohms(fields.dropper_ohm),
                designed_v: number(fields.designed_v),
              }),
        }),
      ];
    case "capacitor":
      if (!has("marking")) return [];
      return [
        given({
          ask: /** @type {const} */ ("capacitor"),
          marking: fields.marking,
          role: /** @type {import("./answers").CapacitorRole} */ (fields.role),
          kind: /** @type {import("./answers").CapacitorKind} */ (fields.kind),
          circuit_v: number(fields.circuit_v),
          line_v: number(fields.line_v),
          line_hz: number(fields.line_hz),
          measured_pf: fields.measured?.trim(),
          in_circuit: fields.in_circuit ? true : undefined,
          grid_v: number(fields.grid_v),
          grid_ohm: ohms(fields.grid_ohm),
          esr_ohm: ohms(fields.esr_ohm),
          load_ma: number(fields.load_ma),
          rectifier: fields.rectifier?.trim(),
        }),
      ];
    case "resistor":
      if (!has("marking")) return [];
      return [
        given({
          ask: /** @type {const} */ ("resistor"),
          marking: fields.marking,
          measured_ohm: ohms(fields.measured),
          in_circuit: fields.in_circuit ? true : undefined,
          role: /** @type {import("./answers").ResistorRole} */ (fields.role),
          circuit_v: number(fields.circuit_v),
          circuit_ma: number(fields.circuit_ma),
          watts: number(fields.watts),
        }),
      ];
    case "colours": {
      const code = codeOf(fields);
      const colours = coloursOf(fields);
      // One black band alone is a link; else a part has as many marks as its code knows.
      const whole = MARKS[code].includes(colours.length) || (code === "resistor_bands" && colours.length === 1 && colours[0] === "black");
      if (!whole || colours.includes(UNTOLD)) return [];
      const measured = onResistor(code) ? { measured_ohm: ohms(fields.measured) } : { measured_pf: fields.measured?.trim() };
      return [given({ ask: /** @type {const} */ ("colour_code"), code, colours, wide_first: fields.wide_first ? true : undefined, ...measured })];
    }
    case "list":
      if (!has("lines")) return [];
      return [
        given({
          ask: /** @type {const} */ ("parts_list"),
          lines: fields.lines.split(/\r\n|\r|\n/),
          line_v: number(fields.line_v),
          line_hz: number(fields.line_hz),
        }),
      ];
    case "row":
      return has("type") ? [{ ask: "row", type: fields.type }] : [];
    default:
      // The parts book and the sets put their own.
      return [];
  }
};

/** Which field of the page a field named by the core's error belongs to. @type {Record<string, string>} */
const NAMES = {
  original: "set",
  candidate: "have",
  "original.type": "type",
  "original.plates": "plates",
  "original.drop_v": "drop_v",
  "original.drop_ma": "drop_ma",
  first_filter_uf: "first_uf",
  second_filter_uf: "second_uf",
  after_filter_ma: "after_ma",
  filter_rated_v: "rated_v",
  measured_ohm: "measured",
  measured_pf: "measured",
  amps: "string_a",
  volts: "heater_v",
  spare_amps: "spare_a",
  tie_points: "tie_pins",
};

/** Which of a list an error means; -1 when it means no such thing. @param {string} path as in `ErrorAnswer.field` */
export const placeIn = (path) => Number(/\[(\d+)\]/.exec(path)?.[1] ?? -1);

/** A list of types with another in one place. @param {string | undefined} text @param {number} at @param {string} name */
export const replaced = (text, at, name) => list(text).map((one, place) => (place === at ? name : one)).join(" ");

/** @param {Sheet} sheet @param {string} path as in `ErrorAnswer.field` @returns {string} the field of the page */
export const fieldOf = (sheet, path) => {
  const plain = path.replace(/\[\d+\]$/, "").replace(/^(socket\.)?(supply\.)?/, "");
  if (sheet === "swap" && plain === "type") return "set";
  if (sheet === "lineup" && plain === "tubes") return "note";
  return NAMES[plain] ?? plain;
};
