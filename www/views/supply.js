// The place Supply: what replaces this rectifier, and does the heater string work?

import { html, nothing } from "../vendor/lit-html.js";
import { LASTING } from "../sheets.js";
import { list, placeIn, replaced } from "../questions.js";
import { WORDS } from "../words.js";
import { fault, faultVerdict, notInBook } from "./fault.js";
import { choice, figure, foot, further, pair, quick, text, type } from "./fields.js";
import { heaters } from "./heaters.js";
import { lost, names } from "./near.js";
import { rectifier } from "./rectifier.js";
import { switcher } from "./switch.js";
import { trouble, verdict } from "./verdict.js";
import { welcome } from "./welcome.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */
/** @typedef {"rectifier" | "heaters"} Sheet */

const { units: UNITS } = WORDS;
/** Line voltages one meets. */
const LINES = ["117", "120", "123", "220", "230", "240"];

/** @param {import("../sheets.js").Fields} fields */
const filled = (fields) => Object.keys(fields).some((name) => fields[name] && !LASTING.includes(name));

/** @param {Sheet} sheet @param {State} state @param {Verbs} on */
const blanks = (sheet, state, on) => {
  const say = /** @type {Record<string, string>} */ (/** @type {unknown} */ (WORDS[sheet]));
  const wrong = fault(sheet, state.answers);
  return (/** @type {string} */ name, /** @type {string} */ unit = "", /** @type {string} */ placeholder = "") => ({
    name, label: say[name], fields: state.fields[sheet], on, unit, placeholder, fault: wrong,
  });
};

/** @param {State} state @param {Verbs} on */
const rectifierQuestion = (state, on) => {
  const SAY = WORDS.rectifier;
  const fields = state.fields.rectifier;
  const blank = blanks("rectifier", state, on);
  const { defaults } = SAY;
  return html`
    ${choice("original", SAY.what, SAY.ways, fields.original ?? "", (value) => on.choose("original", value))}
    ${fields.original === "tube" ? type(blank("type")) : nothing}
    ${pair(
      figure(blank("line_v", UNITS.v, defaults.line_v)),
      choice("line_hz", SAY.line_hz, SAY.hzWays, fields.line_hz ?? "", (value) => on.choose("line_hz", value)),
    )}
    ${quick("line_v", LINES, fields, on)}
    ${pair(figure(blank("first_uf", UNITS.uf)), figure(blank("load_ma", UNITS.ma)))}
    ${fields.load_ma ? nothing : html`<p class="help">${SAY.loadHelp}</p>`}
    ${foot(further(SAY.tell, SAY.tellWhy, state.telling, on, html`
      ${figure(blank("target_v", UNITS.v, defaults.target_v))}
      ${fields.original === "selenium" ? figure(blank("plates")) : nothing}
      ${fields.original === "tube" ? html`${figure(blank("drop_v", UNITS.v))} ${figure(blank("drop_ma", UNITS.ma))}` : nothing}
      ${figure(blank("rated_v", UNITS.v, defaults.rated_v))}
      ${figure(blank("filter_ohm", UNITS.ohm, defaults.filter_ohm))}
      ${figure(blank("second_uf", UNITS.uf, defaults.second_uf))}
      ${figure(blank("fitted_ohm", UNITS.ohm, defaults.fitted_ohm))}
    `), on, filled(fields))}
  `;
};

/** @param {State} state @param {Verbs} on */
const heatersQuestion = (state, on) => {
  const SAY = WORDS.heaters;
  const blank = blanks("heaters", state, on);
  return html`
    ${text({ ...blank("tubes", "", SAY.tubesPlaceholder), wide: true, help: SAY.tubesHelp })}
    ${pair(
      figure(blank("line_v", UNITS.v, WORDS.rectifier.defaults.line_v)),
      figure(blank("dropper_ohm", UNITS.ohm, SAY.dropperPlaceholder)),
    )}
    ${quick("line_v", LINES, state.fields.heaters, on)}
    ${foot(nothing, on, filled(state.fields.heaters))}
  `;
};

/** @param {Sheet} sheet @param {State} state @param {Verbs} on */
const answer = (sheet, state, on) => {
  const out = trouble(state);
  if (out) return verdict(out, "");
  const fields = state.fields[sheet];
  const [main] = state.answers;
  if (!main) {
    const { waiting } = WORDS;
    const untyped = sheet === "rectifier" && fields.original === "tube" && !fields.type && fields.first_uf && fields.load_ma;
    const says = state.core === "starting" ? WORDS.starting : untyped ? waiting.rectifier_type : waiting[sheet];
    return html`${verdict(null, says)} ${welcome(state, on)}`;
  }
  if (main.answer === "rectifier") return rectifier(main, on);
  if (main.answer === "heater_string") return heaters(main, fields, on);
  if (main.answer !== "error") return nothing;
  const at = placeIn(main.field);
  const take = (/** @type {string} */ name) =>
    on.take(sheet === "heaters" ? { tubes: replaced(fields.tubes, at, name) } : { type: name });
  return html`${verdict(faultVerdict(main, sheet), "")} ${names(main.near ?? [], take)}
    ${notInBook(main) ? lost(sheet === "heaters" ? list(fields.tubes)[at] : fields.type, on) : nothing}`;
};

/** @param {State} state @param {Verbs} on */
export const supply = (state, on) => {
  const sheet = state.screen === "heaters" ? "heaters" : "rectifier";
  return {
    question: html`
      ${switcher(WORDS.supply, sheet, on)}
      ${sheet === "rectifier" ? rectifierQuestion(state, on) : heatersQuestion(state, on)}
    `,
    answer: html`${answer(sheet, state, on)}`,
  };
};
