// A job sheet as it is written down: all text, as it was typed, so that nothing typed is ever lost. And the same as the core is asked
// about it. Pure.

import { number, supplyOf } from "./questions.js";

/** @typedef {import("./answers").JobSheet} JobSheet */
/** @typedef {import("./answers").RectifierQuestion} RectifierQuestion */
/** @typedef {import("./sheets.js").Fields} Fields */

/** @typedef {{ key: string, type: string, place: string, state: string, fitted: string, note: string }} TubeLine `key` tells a line from the others on this page */
/** @typedef {{ key: string, reference: string, marking: string, role: string, measured: string, note: string, done: string }} PartLine `done` is "yes" or empty */
/** @typedef {"tubes" | "parts"} Section */

/**
 * @typedef {object} Written
 * @property {string} name
 * @property {string} note
 * @property {string} heaters
 * @property {string} line_v
 * @property {string} line_hz
 * @property {string} designed_v
 * @property {string} winding_v
 * @property {string} winding_a
 * @property {TubeLine[]} tubes
 * @property {Fields} supply the blanks of the rectifier question
 * @property {PartLine[]} parts
 * @property {Fields} readings by the key of a step of the bring-up
 * @property {Fields} ticks steps that are done, by their key
 * @property {string} lines pasted text that is not taken in yet
 */

/** Facts of the set that are figures. */
const FIGURES = /** @type {const} */ (["line_v", "line_hz", "designed_v", "winding_v", "winding_a"]);

/** Tells one thing from all others, also those of other devices. */
export const fresh = () => `${Date.now().toString(36)}${Math.random().toString(36).slice(2, 10)}`;

/** @param {Partial<TubeLine>} [told] @returns {TubeLine} */
export const tubeLine = (told) => ({ type: "", place: "", state: "", fitted: "", note: "", ...told, key: fresh() });
/** @param {Partial<PartLine>} [told] @returns {PartLine} */
export const partLine = (told) => ({ reference: "", marking: "", role: "", measured: "", note: "", done: "", ...told, key: fresh() });

/** @param {string} name @returns {Written} */
export const empty = (name) => ({
  name, note: "", heaters: "", line_v: "", line_hz: "", designed_v: "", winding_v: "", winding_a: "",
  tubes: [], supply: {}, parts: [], readings: {}, ticks: {}, lines: "",
});

/** A list with another in one place. @template T @param {T[]} all @param {number} at @param {T} one */
const exchanged = (all, at, one) => all.map((other, place) => (place === at ? one : other));

/**
 * The sheet with other text in one blank, named by its path: `line_v`, `tubes.2.type`, `supply.first_uf`, `readings.heater.2`.
 * @param {Written} sheet @param {string} path @param {string} text @returns {Written}
 */
export const filled = (sheet, path, text) => {
  const [, head, rest] = /^(\w+)(?:\.(.*))?$/s.exec(path) ?? [];
  if (head === "supply" || head === "readings" || head === "ticks") return { ...sheet, [head]: { ...sheet[head], [rest]: text } };
  if (head === "tubes" || head === "parts") {
    const [, at, name] = /^(\d+)\.(\w+)$/.exec(rest ?? "") ?? [];
    const line = sheet[head][Number(at)];
    return line && name in line ? { ...sheet, [head]: exchanged(/** @type {any[]} */ (sheet[head]), Number(at), { ...line, [name]: text }) } : sheet;
  }
  return head in sheet && !rest ? { ...sheet, [head]: text } : sheet;
};

/** What stands in a blank, named as `filled` names it. @param {Written} sheet @param {string} path */
export const textAt = (sheet, path) => {
  const [, head, rest] = /^(\w+)(?:\.(.*))?$/s.exec(path) ?? [];
  if (head === "supply" || head === "readings" || head === "ticks") return sheet[head][rest] ?? "";
  const [at, name] = (rest ?? "").split(".");
  if (head === "tubes" || head === "parts") return String(/** @type {any} */ (sheet[head][Number(at)])?.[name] ?? "");
  return String(/** @type {any} */ (sheet)[head] ?? "");
};

/** A record without the entries that are not given. @template {object} T @param {T} record @returns {T} */
const given = (record) => /** @type {T} */ (Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined && value !== "")));

/**
 * The sheet as the core is asked about it; lines nobody has typed anything into yet are left out.
 * @param {Written} sheet
 * @param {boolean} [whole] with its parts, which a question about tubes alone does not need
 * @returns {{ sheet: JobSheet, tubes: number[], parts: number[] }} with the places of its lines among those written down
 */
export const asked = (sheet, whole = true) => {
  const { name, note, heaters } = sheet;
  const places = (/** @type {{ type?: string, marking?: string }[]} */ lines) => lines.flatMap(({ type, marking }, at) => ((type ?? marking ?? "").trim() ? [at] : []));
  const tubes = places(sheet.tubes);
  const parts = whole ? places(sheet.parts) : [];
  const supply = supplyOf(sheet.supply);
  const readings = Object.entries(sheet.readings).flatMap(([key, text]) => (text.trim() ? [{ key, value: /** @type {number} */ (number(text)) }] : []));
  const record = given({
    name: name.trim(), note: note.trim(), heaters: /** @type {JobSheet["heaters"]} */ (heaters || undefined),
    ...Object.fromEntries(FIGURES.map((figure) => [figure, number(sheet[figure])])),
    rectifier: whole && Object.keys(supply).length ? supply : undefined,
    readings: whole && readings.length ? readings : undefined,
  });
  return {
    tubes,
    parts,
    sheet: /** @type {JobSheet} */ ({
      ...record,
      name: record.name ?? "",
      tubes: tubes.map((at) => {
        const { key: _, ...line } = sheet.tubes[at];
        return given({ ...line, type: line.type.trim(), fitted: line.fitted.trim() });
      }),
      parts: parts.map((at) => {
        const { key: _, done, ...line } = sheet.parts[at];
        return given({ ...line, marking: line.marking.trim(), done: done ? true : undefined });
      }),
    }),
  };
};

/** @param {unknown} value */
const text = (value) => (value === undefined || value === null ? "" : String(value));
/** Ohms, milliamperes and so on of a supply, by the core's name and the page's. @type {[keyof RectifierQuestion, string][]} */
const SUPPLY = [
  ["replacement", "replacement"], ["target_v", "target_v"], ["first_filter_uf", "first_uf"], ["doubler_uf", "doubler_uf"], ["secondary_v", "secondary_v"],
  ["secondary_ohm", "secondary_ohm"], ["primary_ohm", "primary_ohm"], ["filter_ohm", "filter_ohm"], ["filter_henry", "filter_henry"],
  ["second_filter_uf", "second_uf"], ["after_filter_ma", "after_ma"], ["load_ma", "load_ma"], ["load_ohm", "load_ohm"], ["fitted_ohm", "fitted_ohm"],
  ["filter_rated_v", "rated_v"], ["measured_v", "measured_v"], ["measured_ripple_v", "measured_ripple_v"], ["filament_ohm", "filament_ohm"],
];

/** The blanks of the rectifier question from its record. @param {Partial<RectifierQuestion>} record @returns {Fields} */
const supplyFields = (record) => {
  const { topology, original, load_tubes, filament_tubes } = record;
  const wiring = topology === "centre_tap" ? "two_plates" : topology === "bridge" ? topology : topology?.endsWith("doubler") ? "doubler"
    : filament_tubes?.length || record.filament_ohm !== undefined ? "portable" : record.secondary_v !== undefined ? "one_plate" : "";
  const { kind, ...of } = /** @type {{ kind?: string }} */ (original ?? {});
  return given({
    wiring, doubler: topology === "half_wave_doubler" ? "half" : "", original: text(kind),
    ...Object.fromEntries(Object.entries(of).map(([name, value]) => [name, text(value)])),
    ...Object.fromEntries(SUPPLY.map(([name, blank]) => [blank, text(record[name])])),
    load_tubes: text(load_tubes?.join(" ")), filament_tubes: text(filament_tubes?.join(" ")),
  });
};

/** Lines as the core has read them. @param {{ tubes?: Partial<import("./answers").SheetTube>[], parts?: Partial<import("./answers").SheetPart>[] }} lines */
export const linesOf = ({ tubes = [], parts = [] }) => {
  const texts = (/** @type {object} */ line) => Object.fromEntries(Object.entries(line).map(([name, value]) => [name, text(value)]));
  return {
    tubes: tubes.map((line) => tubeLine(texts(line))),
    parts: parts.map(({ done, ...line }) => partLine({ ...texts(line), done: done ? "yes" : "" })),
  };
};

/** A sheet from a file, as it is written down. @param {JobSheet} sheet @returns {Written} */
export const written = (sheet) => ({
  ...empty(text(sheet.name)),
  note: text(sheet.note), heaters: text(sheet.heaters),
  ...Object.fromEntries(FIGURES.map((figure) => [figure, text(sheet[figure])])),
  ...linesOf(sheet),
  supply: sheet.rectifier ? supplyFields(sheet.rectifier) : {},
  readings: Object.fromEntries((sheet.readings ?? []).map(({ key, value }) => [key, text(value)])),
});

/** What a line is called: "V2 12SK7", "C4 .02 mfd". @param {TubeLine | PartLine} line */
export const called = (line) => ("type" in line ? [line.place, line.type] : [line.reference, line.marking]).filter(Boolean).join(" ");
