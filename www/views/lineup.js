// Can the tubes of this set still be had: every type of a list or a note, with its other markings, what goes in, and one verdict.

import { html, nothing } from "../vendor/lit-html.js";
import { LASTING } from "../sheets.js";
import { WORDS } from "../words.js";
import { ranking } from "./candidates.js";
import { fault, faultVerdict } from "./fault.js";
import { choice, foot, text } from "./fields.js";
import { folded } from "./findings.js";
import { missed } from "./near.js";
import { onward } from "./onward.js";
import { sign, trouble, verdict } from "./verdict.js";
import { welcome } from "./welcome.js";

/** @typedef {import("../answers").LineUpTube} LineUpTube */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { lineup: SAY, swap } = WORDS;

/** @param {State} state @param {Verbs} on */
export const lineupQuestion = (state, on) => {
  const fields = state.fields.lineup;
  const wrong = fault("lineup", state.answers);
  return html`
    ${text({ name: "note", label: SAY.note, fields, on, fault: wrong, placeholder: SAY.notePlaceholder, help: fields.note ? "" : SAY.noteHelp, wide: true })}
    ${choice("heaters", swap.heaters, swap.ways, fields.heaters ?? "", (value) => on.choose("heaters", value))}
    ${foot(nothing, on, Object.keys(fields).some((name) => fields[name] && !LASTING.includes(name)))}
  `;
};

/** A type of the set; what can stand in for it is in sight where it is needed. @param {LineUpTube} tube @param {string} heaters @param {Verbs} on */
const tube = ({ type, count, is, mark, says, names, plug_in, after_changes, best }, heaters, on) => {
  const others = html`${ranking(best, (have) => on.go("swap", { set: type, have, heaters }))}
    <p><button type="button" class="act" @click=${() => on.go("swap", { set: type, heaters })}>${SAY.all(type)}</button></p>`;
  const counts = SAY.counts(plug_in, after_changes);
  return html`<li class=${mark}>
    <h3>${sign(mark, WORDS.marks[mark])} ${type}${count > 1 ? html` <b>× ${count}</b>` : nothing}</h3>
    <p>${says}</p>
    <p class="aside">${is}${names.length ? html`; ${swap.otherNames} <b>${names.join(", ")}</b>` : nothing}</p>
    ${mark === "care" || mark === "no" ? html`<p>${counts}</p>${others}` : folded(counts, others)}
  </li>`;
};

/** @param {State} state @param {Verbs} on */
export const lineupAnswer = (state, on) => {
  const out = trouble(state);
  if (out) return verdict(out, "");
  const [main] = state.answers;
  if (!main) return html`${verdict(null, state.core === "starting" ? WORDS.starting : WORDS.waiting.lineup)} ${welcome(state, on)}`;
  if (main.answer === "error") return verdict(faultVerdict(main, "lineup"), "");
  if (main.answer !== "line_up") return nothing;
  const { tubes, supply, supply_words, not_found } = main;
  const all = tubes.flatMap(({ type, count }) => Array.from({ length: Math.min(count, 20) }, () => type)).join(" ");
  return html`
    ${verdict(main.verdict, "")}
    <p class="aside">${supply_words}</p>
    ${missed(not_found, on)}
    <ol class="set">${tubes.map((one) => tube(one, supply, on))}</ol>
    ${supply === "series" ? onward([[SAY.string, () => on.go("heaters", { tubes: all })]]) : nothing}
  `;
};
