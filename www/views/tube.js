// The place Tube: what is it, what can go in, does this one fit?

import { html, nothing } from "../vendor/lit-html.js";
import { list, placeIn, replaced } from "../questions.js";
import { LASTING } from "../sheets.js";
import { WORDS } from "../words.js";
import { candidates } from "./candidates.js";
import { fault, faultVerdict, notInBook, quoted } from "./fault.js";
import { choice, foot, type } from "./fields.js";
import { offer } from "./findings.js";
import { lineupAnswer, lineupQuestion } from "./lineup.js";
import { lost, names } from "./near.js";
import { onward } from "./onward.js";
import { place } from "./place.js";
import { matches, searchAnswer, searchQuestion } from "./search.js";
import { servesAnswer, servesQuestion } from "./serves.js";
import { swap } from "./swap.js";
import { switcher } from "./switch.js";
import { socketSheet, source, tubeSheet } from "./tube_sheet.js";
import { identity, trouble, verdict } from "./verdict.js";
import { welcome } from "./welcome.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { swap: SAY } = WORDS;

/** @param {State} state @param {Verbs} on */
const question = (state, on) => {
  const fields = state.fields.swap;
  const blank = { fields, on, fault: fault("swap", state.answers) };
  return html`
    ${type({ ...blank, name: "set", label: SAY.set })}
    ${type({ ...blank, name: "have", label: SAY.have, placeholder: SAY.havePlaceholder })}
    ${choice("heaters", SAY.heaters, SAY.ways, fields.heaters ?? "", (value) => on.choose("heaters", value))}
    ${foot(place(state, on), on, Object.keys(fields).some((name) => fields[name] && !LASTING.includes(name)))}
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
      ${onward([
        [SAY.servesFor(main.tube.type), () => on.go("serves", { have: main.tube?.type ?? "", heaters: fields.heaters ?? "" })],
      ])}
      ${socketSheet(main.tube)} ${tubeSheet(main.tube)} <section>${source(main.tube, on)}</section>
      ${names(main.near, take, SAY.near)}
    `;
  }
  if (main.answer === "error") {
    const field = fault("swap", state.answers)?.field ?? "set";
    const at = placeIn(main.field);
    const take = (/** @type {string} */ name) => on.take({ [field]: at < 0 ? name : replaced(fields[field], at, name) });
    return html`${verdict(faultVerdict(main), "")} ${names(main.near ?? [], take)}
      ${notInBook(main) ? lost(at < 0 ? fields[field] : list(fields[field])[at], on) : offer(faultVerdict(main), SAY.toBlank, () => on.tell(true, field))}`;
  }
  return nothing;
};

/** @type {Record<string, [(state: State, on: Verbs) => unknown, (state: State, on: Verbs) => unknown]>} */
const SCREENS = {
  swap: [question, answer],
  serves: [servesQuestion, servesAnswer],
  lineup: [lineupQuestion, lineupAnswer],
  search: [searchQuestion, searchAnswer],
};

/** @param {State} state @param {Verbs} on */
export const tube = (state, on) => {
  const [question, answer] = SCREENS[state.screen];
  return {
    question: html`${switcher(WORDS.tube, /** @type {keyof typeof WORDS.tube} */ (state.screen), on)} ${question(state, on)}`,
    answer: html`${answer(state, on)}`,
  };
};
