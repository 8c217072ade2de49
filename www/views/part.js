// The place Part: what replaces this capacitor, is this resistor still good, what do these colours say, what is to be bought for a whole list?

import { html, nothing } from "../vendor/lit-html.js";
import { LASTING } from "../sheets.js";
import { WORDS } from "../words.js";
import { capacitor } from "./capacitor.js";
import { colours, coloursQuestion, coloursWaiting } from "./colours.js";
import { fault, faultVerdict } from "./fault.js";
import { choice, figure, foot, further, pick, text, type } from "./fields.js";
import { list, listQuestion } from "./list.js";
import { resistor } from "./resistor.js";
import { switcher } from "./switch.js";
import { trouble, verdict } from "./verdict.js";
import { welcome } from "./welcome.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */
/** @typedef {"capacitor" | "resistor" | "colours" | "list"} Sheet */

const { units: UNITS } = WORDS;

/** Places at the power line, where its volts and hertz matter. */
const AT_LINE = ["across_line", "line_to_chassis", "bus_to_chassis", "aerial_isolation"];

/** @param {import("../sheets.js").Fields} fields */
const filled = (fields) => Object.keys(fields).some((name) => fields[name] && !LASTING.includes(name));

/** @param {"capacitor" | "resistor"} sheet @param {State} state @param {Verbs} on */
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
  const { role = "", kind = "" } = fields;
  const readings = ["measured", "in_circuit", "grid_v", "grid_ohm", "esr_ohm", "load_ma", "rectifier"];
  // Only what the place makes sense of, and what is filled in already.
  const where = (/** @type {string} */ name, /** @type {boolean} */ belongs, /** @type {unknown} */ field) => (belongs || fields[name] ? field : nothing);
  const coupling = role === "coupling" || !role;
  const filter = role === "first_filter" || role === "second_filter";
  const electrolytic = filter || role === "cathode_bypass" || kind === "electrolytic";
  return html`
    ${text(blank("marking", "", SAY.markingPlaceholder))}
    ${pick("role", SAY.role, SAY.roles, fields.role ?? "", choose("role"))}
    ${pick("kind", SAY.kind, SAY.kinds, fields.kind ?? "", choose("kind"))}
    ${AT_LINE.includes(fields.role ?? "")
      ? html`${figure(blank("line_v", UNITS.v))} ${choice("line_hz", SAY.line_hz, SAY.hzWays, fields.line_hz ?? "", choose("line_hz"))}`
      : figure(blank("circuit_v", UNITS.v))}
    ${foot(further(SAY.tell, SAY.tellWhy, state.telling || readings.some((name) => fields[name]), on, html`
      ${text({ ...blank("measured", UNITS.pf), help: SAY.measuredHelp })}
      ${choice("in_circuit", SAY.in_circuit, SAY.inCircuitWays, fields.in_circuit ?? "", choose("in_circuit"))}
      ${where("grid_v", coupling, figure(blank("grid_v", UNITS.v)))}
      ${where("grid_ohm", coupling, text(blank("grid_ohm", UNITS.ohm, "470k")))}
      ${where("esr_ohm", electrolytic, figure(blank("esr_ohm", UNITS.ohm)))}
      ${where("load_ma", filter, figure(blank("load_ma", UNITS.ma)))}
      ${where("rectifier", role === "first_filter", type(blank("rectifier", "", SAY.rectifierPlaceholder)))}
    `), on, filled(fields))}
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
    ${foot(further(SAY.tell, SAY.tellWhy, state.telling || ["in_circuit", "circuit_v", "circuit_ma", "watts"].some((name) => fields[name]), on, html`
      ${choice("in_circuit", SAY.in_circuit, SAY.inCircuitWays, fields.in_circuit ?? "", (value) => on.choose("in_circuit", value))}
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
    const says = state.core === "starting" ? WORDS.starting : sheet === "colours" ? coloursWaiting(state.fields.colours) : WORDS.waiting[sheet];
    return html`${verdict(null, says)} ${welcome(state, on)}`;
  }
  if (main.answer === "capacitor") return capacitor(main, on);
  if (main.answer === "resistor") return resistor(main, on);
  if (main.answer === "colour_code") return colours(main, state, on);
  if (main.answer === "parts_list") return list(main, on);
  return main.answer === "error" ? verdict(faultVerdict(main, sheet), "") : nothing;
};

/** @type {Record<Sheet, (state: State, on: Verbs) => import("../vendor/lit-html.js").TemplateResult>} */
const asks = { capacitor: capacitorQuestion, resistor: resistorQuestion, colours: coloursQuestion, list: listQuestion };

/** @param {State} state @param {Verbs} on */
export const part = (state, on) => {
  const sheet = /** @type {Sheet} */ (state.screen);
  return {
    question: html`
      ${switcher(WORDS.part, sheet, on)}
      ${asks[sheet](state, on)}
    `,
    answer: html`${answer(sheet, state, on)}`,
  };
};
