// The place Part: what replaces this capacitor, and is this resistor still good or what replaces it?

import { html, nothing } from "../vendor/lit-html.js";
import { LASTING } from "../sheets.js";
import { WORDS } from "../words.js";
import { capacitor } from "./capacitor.js";
import { fault, faultVerdict } from "./fault.js";
import { choice, figure, foot, further, pick, text } from "./fields.js";
import { resistor } from "./resistor.js";
import { switcher } from "./switch.js";
import { trouble, verdict } from "./verdict.js";
import { welcome } from "./welcome.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */
/** @typedef {"capacitor" | "resistor"} Sheet */

const { units: UNITS } = WORDS;

/** Places at the power line, where its volts and hertz matter. */
const AT_LINE = ["across_line", "line_to_chassis", "aerial_isolation"];

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
const capacitorQuestion = (state, on) => {
  const SAY = WORDS.capacitor;
  const fields = state.fields.capacitor;
  const blank = blanks("capacitor", state, on);
  const choose = (/** @type {string} */ name) => (/** @type {string} */ value) => on.choose(name, value);
  return html`
    ${text(blank("marking", "", SAY.markingPlaceholder))}
    ${pick("role", SAY.role, SAY.roles, fields.role ?? "", choose("role"))}
    ${pick("kind", SAY.kind, SAY.kinds, fields.kind ?? "", choose("kind"))}
    ${AT_LINE.includes(fields.role ?? "")
      ? html`${figure(blank("line_v", UNITS.v))} ${choice("line_hz", SAY.line_hz, SAY.hzWays, fields.line_hz ?? "", choose("line_hz"))}`
      : figure(blank("circuit_v", UNITS.v))}
    ${foot(nothing, on, filled(fields))}
  `;
};

/** @param {State} state @param {Verbs} on */
const resistorQuestion = (state, on) => {
  const SAY = WORDS.resistor;
  const fields = state.fields.resistor;
  const blank = blanks("resistor", state, on);
  return html`
    ${text(blank("marking", "", SAY.markingPlaceholder))}
    ${text(blank("measured", UNITS.ohm, SAY.measuredPlaceholder))}
    ${pick("role", SAY.role, SAY.roles, fields.role ?? "", (value) => on.choose("role", value))}
    ${foot(further(SAY.tell, SAY.tellWhy, state.telling, on, html`
      ${figure(blank("circuit_v", UNITS.v))} ${figure(blank("circuit_ma", UNITS.ma))} ${figure(blank("watts", UNITS.w))}
    `), on, filled(fields))}
  `;
};

/** @param {Sheet} sheet @param {State} state @param {Verbs} on */
const answer = (sheet, state, on) => {
  const out = trouble(state);
  if (out) return verdict(out, "");
  const [main] = state.answers;
  if (!main) {
    const says = state.core === "starting" ? WORDS.starting : WORDS.waiting[sheet];
    return html`${verdict(null, says)} ${welcome(state, on)}`;
  }
  if (main.answer === "capacitor") return capacitor(main, on);
  if (main.answer === "resistor") return resistor(main, on);
  return main.answer === "error" ? verdict(faultVerdict(main, sheet), "") : nothing;
};

/** @param {State} state @param {Verbs} on */
export const part = (state, on) => {
  const sheet = state.screen === "resistor" ? "resistor" : "capacitor";
  return {
    question: html`
      ${switcher(WORDS.part, sheet, on)}
      ${sheet === "capacitor" ? capacitorQuestion(state, on) : resistorQuestion(state, on)}
    `,
    answer: html`${answer(sheet, state, on)}`,
  };
};
