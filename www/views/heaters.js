// The heater string, drawn as a ladder from line to chassis: one rung a heater, with its volts and how much of its rating that is.

import { html, nothing, svg } from "../vendor/lit-html.js";
import { number } from "../questions.js";
import { WORDS } from "../words.js";
import { cautions, changes, everything, folded, measure, reasons, short, steps } from "./findings.js";
import { sign, verdict } from "./verdict.js";
import { isResistor, warmUp } from "./warm_up.js";

/** @typedef {import("../answers").HeaterStringAnswer} HeaterStringAnswer */
/** @typedef {import("../answers").HeaterRow} HeaterRow */
/** @typedef {import("../sheets.js").Fields} Fields */

const { heaters: SAY, units: UNITS, findings: FINDINGS } = WORDS;

/** @type {Record<import("../answers").Outcome, import("../answers").Mark>} */
const MARKS = { ok: "yes", differs: "care", needs_change: "care", unknown: "unknown", fails: "no" };

const HEATER = "M12 0v8l9 12-9-6-9 6 9 12v8";
const RESISTOR = "M12 0v6h6v28h-12v-28h6M12 34v6";

/** Bar of the rung: 100 % of the rating is the line across it; what goes beyond 150 % is cut there. @param {number} percent */
const gauge = (percent) => svg`<rect class="track" x="0" y="6" width="150" height="8" rx="1" />
  <rect class="level" x="0" y="6" width=${Math.max(0, Math.min(percent, 150))} height="8" rx="1" />
  <path class="rated" d="M100 0v20" />`;

/** @param {HeaterRow} row */
const rung = ({ type, rated_v, v, percent, outcome, heater_cathode_v }) => html`<li class=${outcome}>
  <svg class="filament" viewBox="0 0 24 40" preserveAspectRatio="none" aria-hidden="true"><path d=${isResistor(type) ? RESISTOR : HEATER} /></svg>
  <b>${type}</b>
  <span class="volts">${short(v)} ${UNITS.v} <i>${SAY.of(`${short(rated_v)} ${UNITS.v}`)}</i></span>
  <svg class="gauge" viewBox="0 0 150 20" preserveAspectRatio="xMinYMid" aria-hidden="true">${gauge(percent)}</svg>
  <span class="percent">${short(percent)} %</span>
  ${sign(MARKS[outcome], FINDINGS.outcomes[outcome])}
  ${heater_cathode_v === undefined ? nothing : html`<span class="between">${SAY.heaterCathode(`${short(heater_cathode_v)} ${UNITS.v}`)}</span>`}
</li>`;

/** @param {string} name @param {unknown} value */
const end = (name, value) => html`<li class="end"><b>${name}</b> <span class="volts">${value}</span></li>`;

/** @param {HeaterStringAnswer} answer @param {Fields} fields */
const ladder = ({ heaters, sum_v, current_a, line_v }, fields) => {
  const fitted = number(fields.dropper_ohm);
  const side = fields.fed === "winding";
  return html`<section>
    <h3>${side ? SAY.side : SAY.ladder}</h3>
    <ol class="ladder ${side ? "side" : ""}">
      ${end(side ? SAY.winding : SAY.line, `${short(line_v, 4)} ${UNITS.v}`)}
      ${!side && typeof fitted === "number" && fitted > 0
        ? html`<li>
            <svg class="filament" viewBox="0 0 24 40" preserveAspectRatio="none" aria-hidden="true"><path d=${RESISTOR} /></svg>
            <b>${SAY.dropper}</b>
            <span class="volts">${short(fitted, 4)} ${UNITS.ohm}</span>
          </li>`
        : nothing}
      ${heaters.map(rung)}
      ${side ? nothing : end(SAY.chassis, `0 ${UNITS.v}`)}
    </ol>
    <dl class="facts">
      ${side ? nothing : html`<div><dt>${SAY.sum}</dt><dd>${short(sum_v, 4)} ${UNITS.v}</dd></div>`}
      <div><dt>${SAY.current}</dt><dd>${short(current_a)} ${UNITS.a}</dd></div>
    </dl>
  </section>`;
};

/** @param {HeaterStringAnswer} answer @param {Fields} fields */
export const heaters = (answer, fields) => {
  // On a wrong line the ways to it are what is to be done, and stand there already.
  const twice = answer.changes[0]?.says === answer.remedies[0]?.says;
  return html`
    ${verdict(answer.verdict, "")} ${reasons(answer.reasons)} ${changes(answer.changes)} ${ladder(answer, fields)}
    ${twice ? nothing : changes(answer.remedies, SAY.remedies)} ${warmUp(answer)}
    ${measure(answer.measure)} ${cautions(answer.cautions)}
    ${answer.alternatives.length ? folded(SAY.alternatives, steps(answer.alternatives)) : nothing} ${everything(answer.findings)}
  `;
};
