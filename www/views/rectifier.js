// Diode and resistor instead of an old rectifier: what to fit, big; then the set on a low, nominal and high line, and the rest.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { assumed, cautions, changes, everything, folded, measure, offer, reasons, short } from "./findings.js";
import { minute } from "./minute.js";
import { ripple } from "./ripple.js";
import { sign, verdict } from "./verdict.js";

/** @typedef {import("../answers").RectifierAnswer} RectifierAnswer */
/** @typedef {import("../answers").LineCase} LineCase */

const { rectifier: SAY, units: UNITS } = WORDS;

/** @param {number} value @param {string} unit @param {number} [digits] */
const figure = (value, unit, digits) => `${short(value, digits)} ${unit}`;

/** What to fit, in the largest figures after the verdict. @param {RectifierAnswer} answer */
const fit = ({ diode, resistor, first_filter }) => html`<section>
  <h3>${SAY.fit}</h3>
  <dl class="fit">
    <div>
      <dt>${SAY.diode}</dt>
      <dd><b>${diode.name}</b><span>${figure(diode.peak_inverse_v, UNITS.v, 4)}, ${figure(diode.forward_a, UNITS.a)}</span></dd>
    </div>
    <div>
      <dt>${SAY.resistor}</dt>
      ${resistor
        ? html`<dd>
            <b>${figure(resistor.ohm, UNITS.ohm, 4)}, ${figure(resistor.rated_w, UNITS.w)}</b>
            <span>${SAY.heat(figure(resistor.dissipates_w, UNITS.w, 2))}</span>
            ${resistor.closer
              ? html`<span>${SAY.closer(figure(resistor.closer.ohm, UNITS.ohm, 4), figure(resistor.closer.rated_w, UNITS.w), figure(resistor.closer.warm_v, UNITS.v))}</span>`
              : nothing}
            ${resistor.most_ohm > resistor.least_ohm
              ? html`<span>${SAY.band(figure(resistor.least_ohm, UNITS.ohm, 6), figure(resistor.most_ohm, UNITS.ohm, 6))}</span>`
              : nothing}
          </dd>`
        : html`<dd>${SAY.noResistor}</dd>`}
    </div>
    <div>
      <dt>${SAY.capacitors}</dt>
      <dd>
        <b>${figure(first_filter.least_rated_v, UNITS.v)}</b>
        <span>${SAY.capacitorsFor(figure(first_filter.least_rated_v, UNITS.v), figure(first_filter.worst_v, UNITS.v))}</span>
      </dd>
    </div>
  </dl>
</section>`;

/** Rows of the table: what, unit, digits shown. @type {[keyof typeof SAY.rows, string, number][]} */
const FIRST = [
  ["cold_v", UNITS.v, 3],
  ["warm_v", UNITS.v, 3],
  ["filtered_v", UNITS.v, 3],
  ["ripple_v", UNITS.v, 3],
  ["filtered_ripple_v", UNITS.v, 2],
  ["resistor_w", UNITS.w, 2],
];
/** @type {typeof FIRST} */
const FURTHER = [
  ["dc_ma", UNITS.ma, 3],
  ["rms_ma", UNITS.ma, 3],
  ["peak_a", UNITS.a, 2],
  ["inrush_a", UNITS.a, 2],
  ["capacitor_ma", UNITS.ma, 3],
];

/** @param {LineCase[]} lines @param {typeof FIRST} rows */
const table = (lines, rows) => html`<table class="lines-table">
  <thead>
    <tr>
      <td></td>
      ${lines.map(({ line, line_v }) => html`<th scope="col">${/** @type {Record<string, string>} */ (SAY.line)[line] ?? line}<br />${figure(line_v, UNITS.v, 4)}</th>`)}
    </tr>
  </thead>
  <tbody>
    ${rows
      .filter(([name]) => lines.some((line) => line[name] !== undefined))
      .map(
        ([name, unit, digits]) => html`<tr>
          <th scope="row">${SAY.rows[name]}</th>
          ${lines.map((line) => html`<td>${line[name] === undefined ? "" : figure(/** @type {number} */ (line[name]), unit, digits)}</td>`)}
        </tr>`,
      )}
  </tbody>
</table>`;

/** How little or much the choice of the resistor matters, then the values one by one. @param {RectifierAnswer} answer */
const sweep = ({ sweep, resistor }) => html`<p>${SAY.sweepSays(
    figure(Math.min(...sweep.map(({ ohm }) => ohm)), UNITS.ohm, 4),
    figure(Math.max(...sweep.map(({ ohm }) => ohm)), UNITS.ohm, 4),
    figure(Math.max(...sweep.map(({ warm_v }) => warm_v)) - Math.min(...sweep.map(({ warm_v }) => warm_v)), UNITS.v, 2),
  )}</p><table>
  <thead><tr>${SAY.sweepHead.map((head) => html`<th scope="col">${head}</th>`)}</tr></thead>
  <tbody>
    ${sweep.map(
      ({ ohm, warm_v, dissipates_w }) => html`<tr class=${ohm === resistor?.ohm ? "chosen" : ""}>
        <th scope="row">${figure(ohm, UNITS.ohm, 4)}${ohm === resistor?.ohm ? ` (${SAY.chosen})` : ""}</th>
        <td>${figure(warm_v, UNITS.v)}</td>
        <td>${figure(dissipates_w, UNITS.w, 2)}</td>
      </tr>`,
    )}
  </tbody>
</table>`;

/** @param {RectifierAnswer} answer */
const ratings = ({ first_filter }) => html`<ul class="ratings">
  ${first_filter.ratings.map(({ rated_v, enough, says }) => html`<li>${sign(enough ? "yes" : "no")}<b>${figure(rated_v, UNITS.v)}</b><span>${says}</span></li>`)}
</ul>`;

/** The set with diode and resistor: over the first minute, on three lines, with other values. @param {RectifierAnswer} answer @param {import("../sheets.js").Fields} fields */
const solved = (answer, fields) => html`
  <section><h3>${SAY.minute}</h3>${minute(answer, fields)}</section>
  <section><h3>${SAY.lines}</h3>${table(answer.lines, FIRST)}</section>
`;

/** @param {RectifierAnswer} answer */
const further = (answer) => html`
  ${answer.sweep.length ? folded(SAY.sweep, sweep(answer)) : nothing}
  ${folded(SAY.ratings, ratings(answer))}
  ${folded(SAY.waveform, html`${ripple(answer.waveform)} ${table(answer.lines, FURTHER)}`)}
`;

/** @param {RectifierAnswer} answer @param {import("../sheets.js").Fields} fields @param {import("../stand-in.js").Verbs} on */
export const rectifier = (answer, fields, on) => {
  const head = html`${verdict(answer.verdict, "")} ${offer(answer.verdict, SAY.tell, () => on.tell(true, "target_v"))}
    ${reasons(answer.reading, SAY.reading)}`;
  const tail = html`${measure(answer.measure)} ${cautions(answer.cautions)}`;
  // Another tube is the question then; what silicon would do stands behind it, folded.
  if (answer.tube_swap.length) {
    const rest = answer.tube_swap.filter(({ says }) => !answer.reasons.some((reason) => reason.says === says));
    return html`${head} ${reasons(answer.reasons)} ${changes(answer.changes)} ${reasons(rest, SAY.tubeSwap)} ${cautions(answer.cautions)}
      ${folded(SAY.silicon, html`<div class="way-out">
        ${fit(answer)} ${reasons(answer.lost, SAY.lost)} ${solved(answer, fields)} ${measure(answer.measure)} ${further(answer)}
      </div>`)}
      ${assumed(answer.assumed)} ${everything(answer.findings)}`;
  }
  return html`${head} ${reasons(answer.filaments, SAY.filaments)} ${fit(answer)} ${reasons(answer.reasons.filter(({ says }) => !answer.filaments.some((one) => one.says === says)))} ${reasons(answer.lost, SAY.lost)}
    ${solved(answer, fields)} ${changes(answer.changes)} ${tail} ${further(answer)} ${assumed(answer.assumed)} ${everything(answer.findings)}`;
};
