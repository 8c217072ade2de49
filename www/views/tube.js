// The place Tube: what is it, what can go in, does this one fit?

import { html, nothing } from "../vendor/lit-html.js";
import { LASTING } from "../sheets.js";
import { WORDS } from "../words.js";
import { candidates } from "./candidates.js";
import { fault, faultVerdict, notInBook, quoted } from "./fault.js";
import { choice, figure, foot, further, text, type } from "./fields.js";
import { lost, names } from "./near.js";
import { matches, searchAnswer, searchQuestion } from "./search.js";
import { swap } from "./swap.js";
import { switcher } from "./switch.js";
import { socketSheet, source, tubeSheet } from "./tube_sheet.js";
import { identity, trouble, verdict } from "./verdict.js";
import { welcome } from "./welcome.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { swap: SAY, units: UNITS } = WORDS;

/** @param {State} state @param {Verbs} on */
const question = (state, on) => {
  const fields = state.fields.swap;
  const wrong = fault("swap", state.answers);
  const blank = (/** @type {string} */ name, /** @type {string} */ label, /** @type {string} */ unit = "") => ({
    name, label, fields, on, unit, fault: wrong,
  });
  const say = /** @type {Record<string, string>} */ (/** @type {unknown} */ (SAY));
  const figures = (/** @type {string[][]} */ rows) => rows.map(([name, unit]) => figure(blank(name, say[name], unit)));
  const pick = (/** @type {string} */ name) => (/** @type {string} */ value) => on.choose(name, value);
  return html`
    ${type(blank("set", SAY.set))}
    ${type({ ...blank("have", SAY.have), placeholder: SAY.havePlaceholder })}
    ${choice("heaters", SAY.heaters, SAY.ways, fields.heaters ?? "", pick("heaters"))}
    ${foot(further(SAY.tell, SAY.tellWhy, state.telling, on, html`
      ${figures([["plate_v", UNITS.v], ["screen_v", UNITS.v], ["plate_ma", UNITS.ma]])}
      ${fields.heaters === "series" ? html`${figures([["string_a", UNITS.a], ["line_v", UNITS.v]])}${text({ ...blank("others", SAY.others), wide: true })}` : nothing}
      ${fields.heaters === "parallel" ? figures([["heater_v", UNITS.v], ["spare_a", UNITS.a]]) : nothing}
      ${choice("ties", SAY.ties, SAY.tiesWays, fields.ties ?? "", pick("ties"))}
      ${fields.ties === "some" ? text(blank("tie_pins", SAY.tie_pins)) : nothing}
      ${choice("agc", SAY.agc, SAY.agcWays, fields.agc ?? "", pick("agc"))}
    `), on, Object.keys(fields).some((name) => fields[name] && !LASTING.includes(name)))}
  `;
};

/** @param {State} state @param {Verbs} on */
const answer = (state, on) => {
  const fields = state.fields.swap;
  const [main, also] = state.answers;
  const out = trouble(state);
  if (out) return verdict(out, "");
  if (!main) {
    return html`${verdict(null, state.core === "starting" ? WORDS.starting : WORDS.waiting.swap)} ${welcome(state, on)}`;
  }
  if (main.answer === "search") {
    const field = fields.set?.includes("?") ? "set" : "have";
    return matches(main, (name) => on.take({ [field]: name }), html`<p>
      <button type="button" class="act" @click=${() => (on.go("search", { text: fields[field] }), on.tell(true, "base"))}>${WORDS.search.more}</button>
    </p>`);
  }
  if (main.answer === "swap") return swap(main, fields, state, on);
  if (main.answer === "tube") {
    const field = fields.set?.trim() ? "set" : "have";
    const take = (/** @type {string} */ name) => on.take({ [field]: name });
    const ranked = also?.answer === "candidates" ? also : null;
    if (!main.tube) return html`${verdict(main.verdict, "")} ${names(main.near, take)} ${lost(fields[field], on)}`;
    return html`
      ${identity(main.verdict, ranked?.verdict ?? null)}
      ${main.findings.map(({ says }) => html`<p class="aside">${quoted(says)}</p>`)}
      ${also?.answer === "error" ? html`<p class="fault">${faultVerdict(also).says}</p>` : nothing}
      ${field === "have" ? html`<p class="aside">${SAY.onlyHave}</p>` : nothing}
      ${ranked ? candidates(ranked, on) : nothing}
      ${socketSheet(main.tube)} ${tubeSheet(main.tube)} <section>${source(main.tube, on)}</section>
      ${names(main.near, take, SAY.near)}
    `;
  }
  if (main.answer === "error") {
    const wrong = fault("swap", state.answers);
    const take = (/** @type {string} */ name) => on.take({ [wrong?.field ?? "set"]: name });
    return html`${verdict(faultVerdict(main), "")} ${names(main.near ?? [], take)} ${notInBook(main) ? lost(fields[wrong?.field ?? "set"], on) : nothing}`;
  }
  return nothing;
};

/** @param {State} state @param {Verbs} on */
export const tube = (state, on) => {
  const searched = state.screen === "search";
  return {
    question: html`${switcher(WORDS.tube, searched ? "search" : "swap", on)} ${searched ? searchQuestion(state, on) : question(state, on)}`,
    answer: html`${searched ? searchAnswer(state, on) : answer(state, on)}`,
  };
};
