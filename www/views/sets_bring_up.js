// The bring-up sheet: what to do and to measure when a set is first switched on, in order, with what to expect and what a difference means.
// What is typed in is kept in the sheet; empty boxes print as boxes.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { faultVerdict, quoted } from "./fault.js";
import { figure } from "./fields.js";
import { cautions } from "./findings.js";
import { refused, tabs } from "./sets_jobs.js";
import { blanks } from "./sets_lines.js";
import { sign, trouble, verdict } from "./verdict.js";

/** @typedef {import("../answers").BringUpStep} Step */
/** @typedef {import("../answers").BringUpMoment} Moment */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { sets: WORD } = WORDS;
const SAY = WORD.bringUp;

/** @param {Step} step @param {Step | undefined} before what a difference means is not said again where it stands just above @param {import("../job.js").Written} sheet @param {State} state @param {Verbs} on */
const step = ({ key, says, expect, otherwise, measure, read }, before, sheet, state, on) => {
  const ticked = sheet.ticks[key] === "yes";
  return html`<li class="step ${read?.mark ?? ""}">
    ${measure
      ? html`<p>${quoted(says)}</p>`
      : html`<label class="tick"><input type="checkbox" aria-label=${SAY.doneOf(says)} .checked=${ticked} @change=${() => on.choose(`ticks.${key}`, ticked ? "" : "yes")} /><span>${quoted(says)}</span></label>`}
    ${expect ? html`<p class="expect"><i>${SAY.expect}</i> <b>${expect}</b></p>` : nothing}
    ${measure ? html`<div class="box">${figure({ ...blanks(sheet, state, on)(`readings.${key}`, SAY.read), help: "" })}</div>` : nothing}
    ${read ? html`<p role="status" class="read">${sign(read.mark, WORDS.marks[read.mark])} ${quoted(read.says)}</p>` : nothing}
    ${otherwise && otherwise !== before?.otherwise ? html`<p class="aside"><b>${SAY.otherwise}</b> ${quoted(otherwise)}</p>` : nothing}
  </li>`;
};

/** @param {State} state @param {Verbs} on */
export const bringUp = (state, on) => {
  const found = state.sets.jobs.find(({ id }) => id === state.fields.bringup.id);
  const act = (/** @type {string} */ word, /** @type {() => void} */ press) => html`<button type="button" class="act" @click=${press}>${word}</button>`;
  if (!found) {
    return html`${tabs(state, on)}<p role="status">${state.sets.ready ? WORD.sheet.gone : WORDS.starting}</p>
      ${state.sets.ready ? html`<p>${act(WORD.sheet.toList, () => on.go("jobs"))}</p>` : nothing}`;
  }
  const { id, sheet } = found;
  const [main] = state.answers;
  const out = trouble(state);
  const steps = main?.answer === "sheet" ? main.bring_up : [];
  const toSheet = act(SAY.toSheet, () => on.go("job", { id }));
  return html`
    ${tabs(state, on)}
    <h2>${SAY.title(sheet.name || WORD.list.unnamed)}</h2>
    ${refused(state, on)}
    ${state.sets.behind.has(id) ? html`<article class="report" role="alert"><h3>${WORD.sheet.behind}</h3><p class="actions">${toSheet}</p></article>` : nothing}
    ${out ? verdict(out, "") : main?.answer === "error" ? verdict(faultVerdict(main, "bringup"), "") : steps.length ? nothing : verdict(null, state.core === "starting" ? WORDS.starting : SAY.none)}
    <p class="actions onward">${toSheet} ${steps.length ? act(SAY.print, on.print) : nothing}</p>
    ${main?.answer === "sheet" ? cautions(main.cautions) : nothing}
    <form autocomplete="off" aria-label=${SAY.title(sheet.name)} @submit=${(/** @type {Event} */ event) => (event.preventDefault(), on.enter())}>
      ${/** @type {Moment[]} */ (Object.keys(SAY.moments)).map((moment) => {
        const inside = steps.filter((one) => one.moment === moment);
        return inside.length ? html`<section><h3>${SAY.moments[moment]}</h3><ol class="bring-up">${inside.map((one, at) => step(one, inside[at - 1], sheet, state, on))}</ol></section>` : nothing;
      })}
    </form>
  `;
};
