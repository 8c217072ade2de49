// The shopping list of one set or of all: like with like, counted, the code as it is printed on a new part, boxes to tick; for the screen at
// the counter and for one page of paper.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { faultVerdict, quoted } from "./fault.js";
import { pick } from "./fields.js";
import { cautions } from "./findings.js";
import { tabs } from "./sets_jobs.js";
import { trouble, verdict } from "./verdict.js";

/** @typedef {import("../answers").SheetPurchase} Purchase */
/** @typedef {import("../answers").ShoppingAnswer} ShoppingAnswer */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { sets: WORD } = WORDS;
const SAY = WORD.shopping;

/** What a tick belongs to: bought is a number of something, and more of it is to be bought again. @param {Purchase} one */
const tick = ({ shop, code, count }) => `${count} ${shop} ${code}`;

/** @param {Purchase} one @param {State} state @param {Verbs} on */
const purchase = (one, { sets }, on) => {
  const { shop, code, count, places, in_stock } = one;
  return html`<li><label class="tick">
    <input type="checkbox" .checked=${sets.got.has(tick(one))} @change=${() => on.sets.got(tick(one))} />
    <span class="count">${SAY.times(count)}</span>
    <span class="what"><b>${shop}</b>
      ${code ? html`<span class="code">${SAY.code} <b>${code}</b></span>` : nothing}
      <span class="aside">${SAY.places(places)}${in_stock ? html`; <b>${SAY.inStock(in_stock)}</b>` : nothing}</span></span>
  </label></li>`;
};

/** In the order of the answer, under its headings. @param {Purchase[]} all */
const groups = (all) => {
  /** @type {Map<string, Purchase[]>} */
  const groups = new Map();
  for (const one of all) groups.set(one.group, [...(groups.get(one.group) ?? []), one]);
  return [...groups];
};

/** The list as plain words. @param {ShoppingAnswer} answer */
const words = ({ shopping }) =>
  groups(shopping).map(([group, all]) => [group, ...all.map(({ shop, code, count, places }) => `[ ] ${SAY.times(count)} ${shop}${code ? `, ${SAY.code} ${code}` : ""} (${SAY.places(places)})`)].join("\n")).join("\n\n");

/** @param {State} state @param {Verbs} on */
const answer = (state, on) => {
  const out = trouble(state);
  if (out) return verdict(out, "");
  const [main] = state.answers;
  if (!main) return verdict(null, state.core === "starting" || !state.sets.ready ? WORDS.starting : SAY.none);
  if (main.answer === "error") return verdict(faultVerdict(main, "shopping"), "");
  if (main.answer !== "shopping") return nothing;
  const act = (/** @type {string} */ word, /** @type {() => void} */ press) => html`<button type="button" class="act" @click=${press}>${word}</button>`;
  return html`
    ${verdict(main.verdict, "")}
    ${main.shopping.length
      ? html`<p class="actions onward">${act(SAY.print, on.print)} ${act(SAY.send, () => void on.sets.send(SAY.title, words(main)))}</p>
        <div class="buy-groups">${groups(main.shopping).map(([group, all]) => html`<section><h3>${group}</h3><ul class="shopping">${all.map((one) => purchase(one, state, on))}</ul></section>`)}</div>`
      : html`<p>${SAY.nothing}</p>`}
    ${main.open.length ? html`<section><h3>${SAY.open}</h3><p>${SAY.openWhy}</p><ul class="lines">${main.open.map((says) => html`<li>${quoted(says)}</li>`)}</ul></section>` : nothing}
    ${cautions(main.cautions)}`;
};

/** @param {State} state @param {Verbs} on */
export const shopping = (state, on) => {
  const { jobs } = state.sets;
  const { id = "" } = state.fields.shopping;
  const chosen = jobs.find((job) => job.id === id);
  const ways = Object.fromEntries([["", SAY.all], ...jobs.filter((job) => !job.archived || job === chosen).map(({ id, sheet }) => [id, sheet.name || WORD.list.unnamed])]);
  return html`
    ${tabs(state, on)}
    <h2>${SAY.title}<span class="printed">: ${chosen?.sheet.name ?? SAY.all}</span></h2>
    ${jobs.length ? pick("id", SAY.of, ways, chosen ? id : "", (value) => on.choose("id", value)) : nothing}
    <div class="answer">${answer(state, on)}</div>
  `;
};
