// A file on its way into the book: how far it is read, then what it would change, and whether it is to be taken in.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { quoted } from "./fault.js";
import { choice } from "./fields.js";
import { folded } from "./findings.js";

/** @typedef {import("../bench.js").LoadReport} LoadReport */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../state.js").Incoming} Incoming */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { book: SAY } = WORDS;
/** How many of a list stand in sight. */
const IN_SIGHT = 10;

/** The first of a list in sight, the others folded, those not told counted. @template T @param {T[]} all @param {number} more @param {(some: T[]) => unknown} draw */
const some = (all, more, draw) => html`${draw(all.slice(0, IN_SIGHT))}
  ${all.length > IN_SIGHT ? folded(WORDS.more(all.length - IN_SIGHT), draw(all.slice(IN_SIGHT))) : nothing}
  ${more ? html`<p class="aside">${SAY.and(more)}</p>` : nothing}`;

/** @param {LoadReport} report @param {(column: string) => string} words */
const told = (report, words) => html`
  ${report.faults.length
    ? html`<section>
        <h4>${SAY.faults(report.faults.length + report.more_faults)}</h4>
        <p>${SAY.faultsWhy}</p>
        ${some(report.faults, report.more_faults, (faults) => html`<ul class="lines">
          ${faults.map(({ line, column, found, accepted }) => html`<li>
            <b>${line ? SAY.line(line) : SAY.file}${column ? `, ${words(column)}` : ""}:</b>
            ${SAY.found} ${found ? `“${found.replace(/^"(.*)"$/s, "$1")}”` : SAY.nothing}. ${SAY.accepted} ${quoted(accepted)}.
          </li>`)}
        </ul>`)}
      </section>`
    : nothing}
  ${report.new
    ? html`<section>
        <h4>${SAY.new}: ${report.new}</h4>
        <p>${report.new_names.join(", ")}</p>
        ${report.new > report.new_names.length ? html`<p class="aside">${SAY.and(report.new - report.new_names.length)}</p>` : nothing}
      </section>`
    : nothing}
  ${report.changed
    ? html`<section>
        <h4>${SAY.changed}: ${report.changed}</h4>
        ${some(report.changes, report.more_changes, (changes) => html`<table class="beside">
          <thead><tr>${SAY.head.map((word) => html`<th scope="col">${word}</th>`)}</tr></thead>
          <tbody>
            ${changes.map((one) => html`<tr>
              <th scope="row"><b>${one.name}</b>${one.unit && one.unit !== "1" ? ` ${report.table === "stock" ? SAY.which.stock : SAY.which.tubes} ${one.unit}` : ""}, ${words(one.column)}</th>
              <td>${one.old || SAY.empty}</td><td>${one.new || SAY.empty}</td>
            </tr>`)}
          </tbody>
        </table>`)}
      </section>`
    : nothing}
  ${report.advice.length
    ? html`<section>
        <h4>${SAY.advice}</h4>
        ${some(report.advice, report.more_advice, (advice) => html`<ul class="lines">${advice.map((says) => html`<li>${quoted(says)}</li>`)}</ul>`)}
      </section>`
    : nothing}
`;

/** How far a file is read, with the way to stop it. @param {Incoming} incoming @param {Verbs} on */
export const progress = ({ name, done }, on) => html`<div class="progress">
  <p>${SAY.reading(name, Math.floor(done * 100))}</p>
  <progress aria-label=${name} max="1" .value=${done}></progress>
  <button type="button" class="act" @click=${on.leave}>${SAY.stop}</button>
</div>`;

/** @param {State} state @param {Verbs} on */
export const incoming = ({ incoming: file, columns }, on) => {
  if (!file) return nothing;
  const { name, table, report } = file;
  if (!report) return html`<article class="report">${progress(file, on)}</article>`;
  const words = (/** @type {string} */ column) => {
    const known = table === "tubes" && columns.find((one) => one.column === column);
    return known ? WORDS.row.named(known) : column;
  };
  const good = report.answer === "preview" && report.rows > 0;
  return html`<article class="report" aria-labelledby="incoming">
    <h3 id="incoming">${SAY.report(name)}</h3>
    <p role="status">${report.answer === "error" ? quoted(report.says) : SAY.says(report)}</p>
    ${table in SAY.tables
      ? choice("table", SAY.table, SAY.tables, table, (table) => on.readAs(/** @type {import("../bench.js").Table} */ (table)))
      : nothing}
    <p class="actions">
      ${good ? html`<button type="button" class="act do" @click=${on.accept}>${SAY.take}</button>` : nothing}
      <button type="button" class="act" @click=${on.leave}>${good ? SAY.leave : SAY.close}</button>
    </p>
    ${report.answer === "error" ? nothing : told(report, words)}
  </article>`;
};
