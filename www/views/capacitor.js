// What replaces a capacitor: the value and rating to ask for, the code to look for on the new part, the safety class where one is due.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { assumed, cautions, changes, everything, measure, offer, reasons, short } from "./findings.js";
import { readings } from "./readings.js";
import { verdict } from "./verdict.js";

/** @typedef {import("../answers").CapacitorAnswer} CapacitorAnswer */
/** @typedef {import("../answers").CapacitorStandIn} CapacitorStandIn */

const { capacitor: SAY } = WORDS;

/** @param {number} percent */
export const signed = (percent) => `${percent > 0 ? "+" : ""}${short(percent)} %`;

/** @param {CapacitorStandIn} part @param {boolean} several */
const buy = (part, several) => html`<div>
  ${several || part.joined ? html`<dt>${several ? SAY.section(part.section) : ""} ${part.joined ? SAY.joined[part.joined] : ""}</dt>` : nothing}
  <dd>
    <b>${part.value}</b>
    <b>${part.rating}${part.safety_class ? html`, ${SAY.safety} ${part.safety_class}` : nothing}</b>
    <span>${part.dielectric}</span>
    <span>${SAY.marked} <code>${part.marked}</code></span>
    ${part.difference_percent ? html`<span>${SAY.difference(signed(part.difference_percent))}</span>` : nothing}
  </dd>
</div>`;

/** @param {CapacitorAnswer} answer @param {import("../stand-in.js").Verbs} on */
export const capacitor = (answer, on) => {
  const several = new Set(answer.stand_ins.map(({ section }) => section)).size > 1;
  const volts = answer.findings.some(({ check, outcome }) => check === "ratings" && outcome === "unknown");
  return html`
    ${verdict(answer.verdict, "")} ${volts ? offer(answer.verdict, SAY.circuit_v, () => on.tell(true, "circuit_v")) : nothing}
    ${answer.stand_ins.length
      ? html`<section><h3>${SAY.buy}</h3><dl class="fit">${answer.stand_ins.map((part) => buy(part, several))}</dl></section>`
      : nothing}
    ${readings(answer.readings, on)} ${reasons(answer.reasons)} ${changes(answer.changes)} ${measure(answer.measure)}
    ${cautions(answer.cautions)} ${assumed([...new Set([...answer.assumed, ...(answer.readings[0]?.assumed ?? [])])])}
    ${everything(answer.findings)}
  `;
};
