// For the swap meet: what I look for, in large type, with every marking that will do; and what lies on the table, judged for all my sets
// while one types.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { faultVerdict, quoted } from "./fault.js";
import { text } from "./fields.js";
import { folded } from "./findings.js";
import { tabs } from "./sets_jobs.js";
import { MARKS } from "./candidates.js";
import { sign, trouble, verdict } from "./verdict.js";

/** @typedef {import("../answers").Want} Want */
/** @typedef {import("../answers").TableFind} Find */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { sets: WORD } = WORDS;

/** How many markings of a grade stand in sight: at a table one looks for the first few. */
const IN_SIGHT = 12;

/** What to take, and last, folded, what needs work at the bench first. @param {import("../answers").WantedMarkings} take */
const grade = ({ grade, word, mark, markings }) => {
  const large = (/** @type {string[]} */ some) => html`<p class="markings">${some.map((one) => html`<b>${one}</b> `)}</p>`;
  const rest = markings.slice(IN_SIGHT);
  const title = html`${sign(mark, WORDS.marks[mark])} ${word}`;
  if (grade === "after_changes") return html`<div class="late">${folded(html`<span>${title} <span class="aside">${WORD.wants.count(markings.length)}</span></span>`, large(markings))}</div>`;
  return html`<div><h4>${title}</h4>${large(markings.slice(0, IN_SIGHT))}${rest.length ? folded(WORDS.more(rest.length), large(rest)) : nothing}</div>`;
};

/** @param {Want} want @param {Verbs} on */
const want = ({ type, count, places, take, in_stock, says }, on) => {
  const SAY = WORD.wants;
  return html`<li class="want">
    <h3><button type="button" class="plain" @click=${() => on.own(type)}>${type}</button> <span>${SAY.times(count)}</span></h3>
    <p class="aside">${SAY.places(places)}</p>
    ${says ? html`<p>${quoted(says)}</p>` : nothing}
    <div class="take">${take.map(grade)}</div>
    ${in_stock.length
      ? html`<p><b>${SAY.inStock}</b></p><ul class="lines">${in_stock.map(({ marking, count, place, tested, grade }) => html`<li>${sign(MARKS[grade], WORDS.marks[MARKS[grade]])} <b>${marking}</b> ${SAY.held(count, place, tested)}</li>`)}</ul>`
      : nothing}
  </li>`;
};

/** @param {State} state @param {Verbs} on */
export const wants = (state, on) => {
  const SAY = WORD.wants;
  const [main] = state.answers;
  const out = trouble(state);
  return html`
    ${tabs(state, on)}
    <h2>${SAY.title}</h2>
    ${out ? verdict(out, "")
      : main?.answer === "error" ? verdict(faultVerdict(main, "wants"), "")
      : main?.answer === "wants" ? html`${verdict(main.verdict, "")}
        ${main.wants.length
          ? html`<p class="onward"><button type="button" class="act" @click=${on.print}>${SAY.print}</button></p><ul class="want-list">${main.wants.map((one) => want(one, on))}</ul>`
          : html`<p>${SAY.nothing}</p>`}`
      : verdict(null, state.core === "starting" || !state.sets.ready ? WORDS.starting : SAY.none)}
  `;
};

/** A type on the table: the word first, then which of my sets it serves. @param {Find} find @param {State} state @param {Verbs} on */
const find = ({ typed, type, mark, word, says, serves, in_stock, near = [] }, state, on) => {
  const SAY = WORD.table;
  const replace = (/** @type {string} */ name) => on.choose("text", (state.fields.table.text ?? "").replace(typed, () => name));
  return html`<li class=${mark}>
    <h3>${sign(mark, WORDS.marks[mark])} <span>${typed.toUpperCase()}</span> ${type && type !== typed.toUpperCase() ? html`<i>${WORD.stock.is(type)}</i>` : nothing} ${in_stock ? html`<i>${SAY.inStock(in_stock)}</i>` : nothing}</h3>
    <p class="word">${word}</p>
    ${says && says !== word ? html`<p>${quoted(says)}</p>` : nothing}
    ${near.length ? html`<p class="chips">${near.map((name) => html`<button type="button" @click=${() => replace(name)}>${name}</button>`)}</p>` : nothing}
    ${serves.length
      ? html`<ul class="candidates">${serves.map(({ sheet, at, place, wants, wanted, grade, word, says }) => html`<li>
          <button type="button" class="candidate" @click=${() => on.go("job", { id: state.sets.sheets[at] ?? "" })}>
            <b>${SAY.where(sheet, place, wants)}</b><i>${wanted ? SAY.wanted : SAY.notWanted}</i>
            <span class="says">${sign(MARKS[grade], WORDS.marks[MARKS[grade]])} ${word} ${says === word ? "" : quoted(says)}</span>
          </button>
        </li>`)}</ul>`
      : nothing}
    ${type ? html`<p><button type="button" class="plain" @click=${() => on.go("stock", { marking: typed.toUpperCase() })}>${SAY.stock(typed.toUpperCase())}</button></p>` : nothing}
  </li>`;
};

/** @param {State} state @param {Verbs} on */
export const table = (state, on) => {
  const SAY = WORD.table;
  const fields = state.fields.table;
  const [main] = state.answers;
  const out = trouble(state);
  return html`
    ${tabs(state, on)}
    <form class="question" autocomplete="off" @submit=${(/** @type {Event} */ event) => (event.preventDefault(), on.enter())}>
      ${text({ name: "text", label: SAY.text, fields, on, placeholder: SAY.placeholder, help: fields.text ? "" : SAY.help, wide: true })}
    </form>
    <div class="answer">
      ${out ? verdict(out, "")
        : main?.answer === "error" ? verdict(faultVerdict(main, "table"), "")
        : main?.answer === "on_the_table" ? html`${verdict(main.verdict, "")}<ul class="set table">${main.found.map((one) => find(one, state, on))}</ul>`
        : verdict(null, state.core === "starting" || !state.sets.ready ? WORDS.starting : state.sets.jobs.length ? SAY.waiting : SAY.waitingNone)}
    </div>
  `;
};
