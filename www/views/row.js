// A tube's rows as a form: every cell with its words, unit and what it takes; beside it what the shipped book says, where that differs.

import { html, nothing } from "../vendor/lit-html.js";
import { cellOf, changed, rowsOf } from "../csv.js";
import { WORDS } from "../words.js";
import { quoted } from "./fault.js";
import { figure, pick, text } from "./fields.js";

/** @typedef {import("../csv.js").Cell} Cell */
/** @typedef {import("../answers").FaultReport} FaultReport */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { row: SAY } = WORDS;

/** Which columns stand together; the first that fits counts. @type {[keyof typeof SAY.groups, RegExp][]} */
const GROUPS = [
  ["socket", /^(unit|function|cut_off|base|basing|pins|envelope)$/],
  ["heater", /^(heater|lamp|warm)/],
  ["limits", /max|^supply_min/],
  ["typical", /^(typ_|gm_|mu$|rp_|load_|output_w|drop_)/],
  ["capacitance", /_pf$/],
  ["source", /^(source|unsure|note|found_today)$/],
  ["own", /./],
];

/** Text that runs long has a line of its own. */
const LONG = /^(unit|function|pins|source|unsure|note)$/;

/** @param {string} value @param {string} unit */
const shown = (value, unit) => (value ? `${value} ${unit}`.trim() : SAY.empty);

/** @param {Cell} cell @param {FaultReport[]} faults @param {Verbs} on */
const field = ({ name, column: { column, words, unit, one_of, least, most }, text: now, shipped }, faults, on) => {
  const label = SAY.named({ words, unit });
  const wrong = faults.find((fault) => cellOf(fault) === name);
  const fault = wrong ? { field: name, says: `${now ? `“${now}”. ` : ""}${WORDS.book.accepted} ${wrong.accepted}.` } : null;
  const help = shipped === undefined || shipped === now.trim() ? "" : html`${SAY.shipped} ${shown(shipped, unit)}
    <button type="button" class="plain" aria-label=${SAY.asShippedOf(label)} @click=${() => on.choose(name, shipped)}>${SAY.asShipped}</button>`;
  const blank = { name, label, fields: { [name]: now }, on, unit, fault, help };
  if (one_of.length) {
    // What is there stays to be chosen, also where the book cannot read it.
    const ways = Object.fromEntries(["", ...one_of, now].map((word) => [word, word.replaceAll("_", " ") || SAY.any]));
    return html`<div class="cell ${LONG.test(column) ? "wide" : ""}">${pick(name, label, ways, now, (value) => on.choose(name, value))}
      ${fault ? html`<p class="fault">${fault.says}</p>` : nothing} ${help ? html`<p class="help">${help}</p>` : nothing}</div>`;
  }
  if (least !== undefined) return figure({ ...blank, placeholder: SAY.range(least, most ?? 0) });
  const placeholder = column === "pins" ? SAY.pins : column === "unsure" ? SAY.unsureHow : "";
  return html`<div class="cell ${LONG.test(column) ? "wide" : ""}">${text({ ...blank, placeholder })}</div>`;
};

/** @param {Cell[]} cells @param {FaultReport[]} faults @param {boolean} first whether it is the tube's first row @param {boolean} fresh whether it is in the book @param {Verbs} on */
const groups = (cells, faults, first, fresh, on) => {
  const asked = cells.filter(({ column: { column, of_bulb } }) => column !== "type" && (fresh || column !== "unit") && (first || !of_bulb));
  const group = (/** @type {Cell} */ cell) => GROUPS.find(([, columns]) => columns.test(cell.column.column))?.[0];
  return GROUPS.map(([name]) => {
    const inside = asked.filter((cell) => group(cell) === name);
    if (!inside.length) return nothing;
    // Of most tubes the unit needs no thought: it comes last.
    if (inside[0].column.column === "unit") inside.push(...inside.splice(0, 1));
    const wrong = inside.some((cell) => faults.some((fault) => cellOf(fault) === cell.name));
    return html`<details class="fold" ?open=${name === "socket" || wrong || inside.some(changed)}>
      <summary>
        <span>${SAY.groups[name]} <span class="aside">${SAY.filled(inside.filter((cell) => cell.text).length, inside.length)}${wrong ? html`, <b>${SAY.wrong}</b>` : nothing}</span></span>
      </summary>
      <div class="grid">${inside.map((cell) => field(cell, faults, on))}</div>
    </details>`;
  });
};

/** The cells of a row of the user in which the shipped one differs. @param {Cell[]} cells */
export const differing = (cells) => cells.filter(({ was, shipped }) => shipped !== undefined && shipped !== was);

/** @param {Cell[]} cells @param {string[]} head */
export const beside = (cells, head) => html`<table class="beside">
  <thead><tr>${head.map((word) => html`<th scope="col">${word}</th>`)}</tr></thead>
  <tbody>
    ${cells.map(({ column, was, shipped }) => html`<tr>
      <th scope="row">${SAY.named(column)}</th><td>${shown(was, column.unit)}</td><td>${shown(shipped ?? "", column.unit)}</td>
    </tr>`)}
  </tbody>
</table>`;

/** @param {State} state @param {Verbs} on */
export const row = (state, on) => {
  const [main] = state.answers;
  const toBook = html`<button type="button" class="act" @click=${() => on.go("book")}>${SAY.toBook}</button>`;
  if (main?.answer !== "row") {
    return html`<h2>${WORDS.book.title}</h2><p role="status">${state.core === "starting" ? WORDS.starting : SAY.noType}</p><p>${toBook}</p>`;
  }
  const { type, rows } = main;
  const all = rowsOf(main, state.drafts[state.fields.row.type] ?? {});
  const { foreseen } = state;
  const count = all.flat().filter(changed).length;
  const fresh = rows[0].from === "empty";
  // Of a new row nobody has typed in yet nothing is wrong.
  const { faults, advice } = (count || !fresh) && foreseen && foreseen.answer !== "error" ? foreseen : { faults: [], advice: [] };
  const elsewhere = faults.filter((fault) => !all.flat().some(({ name }) => name === cellOf(fault)));
  const from = rows.some((row) => row.from === "own") ? "own" : rows[0].from;
  const differ = all.flatMap(differing);
  const told = (/** @type {string} */ name) => all[0].find(({ column }) => column.column === name)?.was;
  return html`
    <h2>${fresh ? SAY.add(type) : SAY.edit(type)}</h2>
    <p>${SAY.from[from]} ${SAY.why}</p>
    ${told("source") || told("unsure")
      ? html`<dl class="facts">
          ${told("source") ? html`<div><dt>${SAY.source}</dt><dd>${told("source")}</dd></div>` : nothing}
          ${told("unsure") ? html`<div><dt>${SAY.unsure}</dt><dd>${told("unsure")?.replace(/\w+/g, (name) => main.columns.find(({ column }) => column === name)?.words ?? name)}</dd></div>` : nothing}
        </dl>`
      : nothing}
    ${differ.length ? html`<section><h3>${SAY.differ}</h3>${beside(differ, SAY.head)}</section>` : nothing}
    <form autocomplete="off" aria-label=${type} @submit=${(/** @type {Event} */ event) => (event.preventDefault(), on.saveRow())}>
      ${all.map((cells, at) => html`
        ${all.length > 1 ? html`<h3>${SAY.unit(cells.find(({ column }) => column.column === "unit")?.text ?? "")}</h3>` : nothing}
        ${groups(cells, faults, at === 0, fresh || at >= rows.length, on)}
      `)}
      <p><button type="button" class="act" @click=${on.unit}>${SAY.addUnit}</button></p>
      ${elsewhere.map(({ says }) => html`<p class="fault">${quoted(says)}</p>`)}
      ${count && advice.length ? html`<h3>${WORDS.book.advice}</h3><ul class="lines">${advice.map((says) => html`<li>${quoted(says)}</li>`)}</ul>` : nothing}
      <div class=${count ? "settle" : ""}>
        <p role="status">${count ? SAY.cells(count) : ""} ${faults.length ? html`<b>${SAY.unread(faults.length)}</b>` : nothing}</p>
        ${count ? html`<button class="act do">${SAY.save}</button> <button type="button" class="plain" @click=${on.discard}>${SAY.discard}</button>`
          : html`<button type="button" class="act" @click=${on.back}>${SAY.back}</button>`}
      </div>
    </form>
  `;
};
