// The whole page from the whole state.

import { html, nothing } from "./vendor/lit-html.js";
import { about } from "./views/about.js";
import { bar } from "./views/bar.js";
import { book } from "./views/book.js";
import { progress } from "./views/incoming.js";
import { row } from "./views/row.js";
import { header } from "./views/header.js";
import { notice } from "./views/notice.js";
import { part } from "./views/part.js";
import { bringUp } from "./views/sets_bring_up.js";
import { jobs } from "./views/sets_jobs.js";
import { job } from "./views/sets_job.js";
import { shopping } from "./views/sets_shopping.js";
import { stock } from "./views/sets_stock.js";
import { table, wants } from "./views/sets_wants.js";
import { supply } from "./views/supply.js";
import { tube } from "./views/tube.js";
import { named } from "./views/named.js";
import { placeOf } from "./sheets.js";
import { WORDS } from "./words.js";

/** @typedef {import("./state.js").State} State */
/** @typedef {import("./stand-in.js").Verbs} Verbs */
/** @typedef {import("./vendor/lit-html.js").TemplateResult} Markup */
/** @typedef {{ question: Markup, answer: Markup }} Screen question and answer stand under or beside each other */

/** @type {Record<Exclude<import("./sheets.js").Place, "book" | "sets">, (state: State, on: Verbs) => Screen>} */
const places = { tube, supply, part };
/** Screens that are one page. @type {Partial<Record<import("./address.js").Screen, (state: State, on: Verbs) => Markup>>} */
const pages = { jobs, bringup: bringUp, wants, table, stock, shopping, book, row, about };

/** In a page of somebody else it is not the main part. @param {State} state */
const main = ({ embedded }) => (embedded ? nothing : "main");

/** @param {State} state @param {Verbs} on */
const content = (state, on) => {
  const page = pages[state.screen];
  if (page) return html`<div class="page" role=${main(state)} part="answer" id="answer" tabindex="-1" data-answer>${page(state, on)}</div>`;
  if (state.screen === "job") return html`<div class="desk job" role=${main(state)}>${job(state, on)}</div>`;
  const place = placeOf(/** @type {import("./sheets.js").Sheet} */ (state.screen));
  const { question, answer } = places[/** @type {keyof typeof places} */ (place)](state, on);
  return html`<div class="desk" role=${main(state)}>
    <form class="question" part="question" aria-label=${named(state, WORDS.question)} autocomplete="off" @submit=${enter(on)}>${question}</form>
    <section class="answer" part="answer" aria-label=${named(state, WORDS.answer)} tabindex="-1" data-answer>${answer}</section>
  </div>`;
};

/** @param {Verbs} on */
const enter = (on) => (/** @type {Event} */ event) => {
  event.preventDefault();
  on.enter();
};

/** The line above the bar: a file that is being read, while one looks at something else; else what there is to know. @param {State} state @param {Verbs} on */
const low = ({ incoming, screen, notice: told }, on) => {
  if (incoming && !incoming.report && screen !== "book") return html`<div class="notice" part="notice">${progress(incoming, on)}</div>`;
  return told ? notice(told, on) : nothing;
};

/** Esc empties the field it is pressed in; elsewhere it closes the menu. @param {State} state @param {Verbs} on */
const escape = (state, on) => (/** @type {KeyboardEvent} */ event) => {
  if (event.key !== "Escape") return;
  const field = /** @type {HTMLElement} */ (event.target).dataset?.field;
  if (state.menu) on.menu(false);
  else if (field) on.clear(field);
  else return;
  event.preventDefault();
};

/** @param {State} state @param {Verbs} on */
export const view = (state, on) => html`
  <div class="frame"><div class="shell" @keydown=${escape(state, on)}>
    <button class="skip" @click=${on.skip}>${WORDS.skip}</button>
    ${header(state, on)} ${content(state, on)} ${low(state, on)} ${bar(state, on)}
  </div></div>
`;
