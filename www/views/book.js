// The parts book: the user's own CSV files over the shipped one, with what was wrong in them said line by line.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { quoted } from "./fault.js";
import { folded } from "./findings.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */
/** @typedef {import("../bench.js").Table} Table */
/** @typedef {import("../bench.js").Report} Report */

const { book: SAY } = WORDS;
/** @type {Table[]} */
const TABLES = ["tubes", "names"];

/** How many faults stand in sight. */
const IN_SIGHT = 10;

/** @param {import("../answers").FaultReport[]} faults */
const list = (faults) => html`<ul class="lines">${faults.map(({ says }) => html`<li>${quoted(says)}</li>`)}</ul>`;

/** @param {Report} report */
const told = (report) => {
  if (report.answer === "error") return html`<p class="fault">${report.says}</p>`;
  const { faults, more_faults } = report;
  return html`<p>${report.says}</p>
    ${faults.length
      ? html`<h4>${SAY.faults}</h4>
          ${list(faults.slice(0, IN_SIGHT))}
          ${faults.length > IN_SIGHT ? folded(WORDS.more(faults.length - IN_SIGHT), list(faults.slice(IN_SIGHT))) : nothing}
          ${more_faults ? html`<p>${SAY.moreFaults(more_faults)}</p>` : nothing}
          <p>${SAY.rowsKept}</p>`
      : nothing}`;
};

/** @param {State} state @param {Verbs} on */
export const book = (state, on) => {
  const chosen = (/** @type {Table} */ table) => (/** @type {Event} */ event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    const files = [...(input.files ?? [])];
    // Emptied, so that the same file can be chosen again after it was corrected.
    input.value = "";
    on.load(table, files);
  };
  return html`
    <h2>${SAY.title}</h2>
    <p>${SAY.intro}</p>
    <p>${SAY.kept}</p>
    <div class="actions">
      ${TABLES.map(
        (table) => html`<label class="act file">
          <input type="file" accept=".csv,text/csv" multiple data-load=${table} @change=${chosen(table)} /><span>${SAY.load[table]}</span>
        </label>`,
      )}
    </div>
    <p role="status" class="aside">${state.reading ? SAY.reading(state.reading) : ""}</p>
    <h3>${SAY.files}</h3>
    ${state.files.length ? nothing : html`<p>${SAY.none}</p>`}
    ${state.files.map(
      ({ file, report }, at) => html`<article class="report" aria-label=${SAY.report(file.name)}>
        <header>
          <h4>${file.name} (${SAY.tables[file.table]})</h4>
          <button type="button" class="plain" @click=${() => on.remove(at)}>${SAY.remove(file.name)}</button>
        </header>
        ${told(report)}
      </article>`,
    )}
    <div class="actions">
      ${TABLES.map((table) => html`<button type="button" class="act" @click=${() => on.save(table)}>${SAY.save[table]}</button>`)}
    </div>
    <p class="aside">${SAY.saveWhy}</p>
  `;
};
