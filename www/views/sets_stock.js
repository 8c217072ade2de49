// The stock: found by part of a marking or place, counted up and down with one thumb, added to, and in and out as a table.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { figure, text, type } from "./fields.js";
import { file, tabs } from "./sets_jobs.js";
import { trouble, verdict } from "./verdict.js";

/** @typedef {import("../answers").StockRow} Row */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { sets: WORD } = WORDS;
const SAY = WORD.stock;

/** @param {Row} row @param {Verbs} on */
const row = (row, on) => {
  const { marking, type: is, count, place, tested, note } = row;
  const plain = (/** @type {string} */ word, /** @type {() => void} */ press) => html`<button type="button" class="plain" aria-label="${word} ${marking}" @click=${press}>${word}</button>`;
  const differs = is && is.replace(/\W/g, "").toUpperCase() !== marking.replace(/\W/g, "").toUpperCase();
  return html`<li class="held">
    <p class="counter">
      <button type="button" aria-label=${SAY.fewer(marking)} ?disabled=${count === 0} @click=${() => on.stock.count(row, -1)}>−</button>
      <b>${count}</b>
      <button type="button" aria-label=${SAY.oneMore(marking)} @click=${() => on.stock.count(row, 1)}>+</button>
    </p>
    <p><b class="marking">${marking}</b> ${differs ? html`<span class="aside">${SAY.is(is)}</span>` : nothing}
      <span class="aside">${[place && SAY.place(place), tested && SAY.tested(tested), note].filter(Boolean).join("; ")}</span></p>
    <p class="actions">${is ? plain(WORDS.book.open, () => on.own(is)) : nothing} ${plain(SAY.edit, () => on.stock.edit(row))} ${plain(SAY.remove, () => on.stock.remove(row))}</p>
  </li>`;
};

/** @param {State} state @param {Verbs} on */
export const stock = (state, on) => {
  const fields = state.fields.stock;
  const [main] = state.answers;
  const out = trouble(state);
  const blank = (/** @type {keyof typeof SAY.columns} */ name) => ({ name, label: SAY.columns[name], fields, on, placeholder: SAY.hints[name] });
  const { rows = [], more = 0, says = "" } = main?.answer === "stock" ? main : {};
  return html`
    ${tabs(state, on)}
    <h2>${SAY.title}</h2>
    ${out ? verdict(out, "") : nothing}
    <form autocomplete="off" @submit=${(/** @type {Event} */ event) => (event.preventDefault(), on.enter())}>
      ${text({ name: "find", label: SAY.find, fields, on, placeholder: SAY.findPlaceholder })}
    </form>
    <p role="status">${main?.answer === "error" ? main.says : state.core === "starting" ? WORDS.starting : says}</p>
    <ul class="held-rows">${rows.map((one) => row(one, on))}</ul>
    ${more ? html`<p class="aside">${SAY.more(more)}</p>` : nothing}
    <form autocomplete="off" aria-labelledby="stock-form" @submit=${(/** @type {Event} */ event) => (event.preventDefault(), on.stock.save())}>
      <h3 id="stock-form">${fields.key ? SAY.change : SAY.add}</h3>
      <div class="grid">${type(blank("marking"))} ${figure(blank("count"))} ${text(blank("place"))} ${text(blank("tested"))} ${text(blank("note"))}</div>
      <p class="actions"><button class="act do">${SAY.save}</button>
        ${fields.key ? html`<button type="button" class="plain" @click=${() => on.go("stock", { find: fields.find ?? "" })}>${SAY.leave}</button>` : nothing}</p>
    </form>
    <section>
      <h3>${SAY.files}</h3>
      <p>${SAY.filesWhy}</p>
      <p class="actions">${file(SAY.choose, ".csv,.tsv,.txt,text/csv", (files) => on.bring(files))}
        <button type="button" class="act" @click=${() => on.save("stock")}>${SAY.saveFile}</button></p>
    </section>
  `;
};
