// The heater string, drawn as a ladder from line to chassis: one rung a heater, with its volts and how much of its rating that is.

import { html, nothing, svg } from "../vendor/lit-html.js";
import { ohms } from "../questions.js";
import { WORDS } from "../words.js";
import { cautions, changes, everything, folded, measure, reasons, short, steps } from "./findings.js";
import { sign, verdict } from "./verdict.js";
import { isResistor, warmUp } from "./warm_up.js";

/** @typedef {import("../answers").HeaterStringAnswer} HeaterStringAnswer */
/** @typedef {import("../answers").HeaterRow} HeaterRow */
/** @typedef {import("../sheets.js").Fields} Fields */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { heaters: SAY, units: UNITS, findings: FINDINGS } = WORDS;

/** @type {Record<import("../answers").Outcome, import("../answers").Mark>} */
const MARKS = { ok: "yes", differs: "care", needs_change: "care", unknown: "unknown", fails: "no" };

const HEATER = "M12 0v8l9 12-9-6-9 6 9 12v8";
const RESISTOR = "M12 0v6h6v28h-12v-28h6M12 34v6";

/** Bar of the rung: 100 % of the rating is the line across it; what goes beyond 150 % is cut there. @param {number} percent */
const gauge = (percent) => svg`<rect class="track" x="0" y="6" width="150" height="8" rx="1" />
  <rect class="level" x="0" y="6" width=${Math.max(0, Math.min(percent, 150))} height="8" rx="1" />
  <path class="rated" d="M100 0v20" />`;

/** @param {HeaterRow} row @param {Verbs} on @param {boolean} asked whether it is the tube the question is about */
const rung = ({ type, rated_v, v, percent, outcome, heater_cathode_v }, on, asked) => html`<li class=${asked ? `${outcome} asked` : outcome}>
  <svg class="filament" viewBox="0 0 24 40" preserveAspectRatio="none" aria-hidden="true"><path d=${isResistor(type) ? RESISTOR : HEATER} /></svg>
  ${isResistor(type)
    ? html`<b>${type}</b>`
    : html`<button type="button" class="plain" @click=${() => on.go("swap", { set: type, heaters: "series" })}>${type}</button>`}
  <span class="volts">${short(v)} ${UNITS.v} <i>${SAY.of(`${short(rated_v)} ${UNITS.v}`)}</i></span>
  <svg class="gauge" viewBox="0 0 150 20" preserveAspectRatio="xMinYMid" aria-hidden="true">${gauge(percent)}</svg>
  <span class="percent">${short(percent)} %</span>
  ${sign(MARKS[outcome], FINDINGS.outcomes[outcome])}
  ${heater_cathode_v === undefined ? nothing : html`<span class="between">${SAY.heaterCathode(`${short(heater_cathode_v)} ${UNITS.v}`)}</span>`}
</li>`;

/** @param {string} name @param {unknown} value */
const end = (name, value) => html`<li class="end"><b>${name}</b> <span class="volts">${value}</span></li>`;

/**
 * @param {HeaterRow[]} heaters
 * @param {string} line volts as they were given or taken
 * @param {string | undefined} dropper ohms as they were given
 * @param {Verbs} on
 * @param {{ facts?: unknown, asked?: number, side?: boolean }} [further] `asked`: the place of the tube the question is about; `side`: side by side on a winding
 */
export const ladder = (heaters, line, dropper, on, { facts = nothing, asked, side = false } = {}) => {
  const fitted = ohms(dropper);
  return html`<section>
    <h3>${side ? SAY.side : SAY.ladder}</h3>
    <ol class="ladder ${side ? "side" : ""}">
      ${end(side ? SAY.winding : SAY.line, `${line} ${UNITS.v}`)}
      ${!side && typeof fitted === "number" && fitted > 0
        ? html`<li>
            <svg class="filament" viewBox="0 0 24 40" preserveAspectRatio="none" aria-hidden="true"><path d=${RESISTOR} /></svg>
            <b>${SAY.dropper}</b>
            <span class="volts">${short(fitted, 4)} ${UNITS.ohm}</span>
          </li>`
        : nothing}
      ${heaters.map((row, at) => rung(row, on, at === asked))}
      ${side ? nothing : end(SAY.chassis, `0 ${UNITS.v}`)}
    </ol>
    ${facts}
  </section>`;
};

/** @param {HeaterStringAnswer} answer @param {boolean} side */
const sums = ({ sum_v, current_a }, side) => html`<dl class="facts">
  ${side ? nothing : html`<div><dt>${SAY.sum}</dt><dd>${short(sum_v, 4)} ${UNITS.v}</dd></div>`}
  <div><dt>${SAY.current}</dt><dd>${short(current_a)} ${UNITS.a}</dd></div>
</dl>`;

/** @param {HeaterStringAnswer} answer @param {Fields} fields @param {Verbs} on */
export const heaters = (answer, fields, on) => {
  const side = fields.fed === "winding";
  // On a wrong line the ways to it are what is to be done, and stand there already.
  const twice = answer.changes[0]?.says === answer.remedies[0]?.says;
  return html`
    ${verdict(answer.verdict, "")} ${reasons(answer.reasons)} ${changes(answer.changes)}
    ${ladder(answer.heaters, short(answer.line_v, 4), fields.dropper_ohm, on, { facts: sums(answer, side), side })}
    ${twice ? nothing : changes(answer.remedies, SAY.remedies)} ${warmUp(answer)}
    ${measure(answer.measure)} ${cautions(answer.cautions)}
    ${answer.alternatives.length ? folded(SAY.alternatives, steps(answer.alternatives)) : nothing} ${everything(answer.findings)}
  `;
};
