// From a line of a job sheet to the full question about it, with the facts of the sheet filled in. Pure.

/** @typedef {import("./job.js").Written} Written */
/** @typedef {import("./job.js").TubeLine} TubeLine */
/** @typedef {import("./job.js").PartLine} PartLine */
/** @typedef {import("./sheets.js").Fields} Fields */

/** What stands in a socket: the type that goes in instead, else its own. @param {TubeLine} line */
const inside = ({ type, fitted }) => (fitted.trim() || type.trim()).replace(/\s+/g, " ");

/** A tube in its place, and whether another is to go in. @param {Written} sheet @param {number} at @param {boolean[]} tubes which lines are tubes @param {string} have @returns {Fields} */
export const swapOf = (sheet, at, tubes, have) => {
  const others = sheet.tubes.map((line, place) => ({ line, place })).filter(({ line, place }) => place !== at && tubes[place] && inside(line));
  const series = sheet.heaters === "series";
  return {
    set: sheet.tubes[at].type.trim(), have, heaters: sheet.heaters,
    ...(series ? { line_v: sheet.line_v, others: others.map(({ line }) => inside(line)).join(" "), chassis_side: String(others.filter(({ place }) => place > at).length) } : {}),
    ...(sheet.heaters === "parallel" ? { heater_v: sheet.winding_v } : {}),
  };
};

/** @param {Written} sheet @returns {Fields} */
export const heatersOf = ({ tubes, heaters, line_v, line_hz, designed_v, winding_v, winding_a }) => ({
  tubes: tubes.map(inside).filter(Boolean).join(", "),
  ...(heaters === "parallel" ? { fed: "winding", winding_v, winding_a } : { line_v, line_hz: line_hz === "60" ? "" : line_hz, designed_v }),
});

/** @param {Written} sheet @param {boolean[]} tubes which lines are tubes @returns {Fields} */
export const rectifierOf = ({ supply, line_v, line_hz, tubes: lines }, tubes) => {
  const told = ["load_ma", "load_tubes", "load_ohm"].some((name) => supply[name]);
  const all = lines.filter((_, at) => tubes[at]).map(inside).filter(Boolean).join(" ");
  return { ...supply, ...(told ? null : { load_tubes: all }), line_v, line_hz: line_hz === "50" ? line_hz : "" };
};

/** @param {Written} sheet @param {PartLine} line @returns {Fields} */
export const capacitorOf = ({ line_v, line_hz }, { marking, role, measured }) => ({ marking, role, measured, line_v, line_hz: line_hz === "0" ? "" : line_hz });

/** @param {PartLine} line @returns {Fields} */
export const resistorOf = ({ marking, role, measured }) => ({ marking, role, measured });
