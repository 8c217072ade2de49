// A resistor judged by its marking and what it measures, and what can stand in for it.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { fresh } from "./drawn.js";
import { signed } from "./capacitor.js";
import { assumed, cautions, changes, everything, measure, offer, reasons, short } from "./findings.js";
import { readings } from "./readings.js";
import { verdict } from "./verdict.js";

/** @typedef {import("../answers").ResistorAnswer} ResistorAnswer */
/** @typedef {import("../answers").ResistorStandIn} ResistorStandIn */

const { resistor: SAY, capacitor: CAPACITOR, units: UNITS } = WORDS;

/** @param {ResistorStandIn} part */
const buy = (part) => html`<li>
  <b>${part.value}, ${short(part.rated_w)} ${UNITS.w}</b>
  <span>${part.construction}, ${part.working_v === undefined ? SAY.askMaker : SAY.stands(`${short(part.working_v)} ${UNITS.v}`)}</span>
  ${part.bands.length ? html`<span>${SAY.bands}</span> ${fresh(part.bands)}` : nothing}
  ${part.difference_percent ? html`<span>${CAPACITOR.difference(signed(part.difference_percent))}</span>` : nothing}
</li>`;

/** @param {ResistorAnswer} answer @param {import("../stand-in.js").Verbs} on */
export const resistor = (answer, on) => html`
  ${verdict(answer.verdict, "")} ${offer(answer.verdict, SAY.tell, () => on.tell(true, "circuit_v"))} ${readings(answer.readings, on)} ${reasons(answer.reasons)}
  ${answer.stand_ins.length ? html`<section><h3>${SAY.buy}</h3><ul class="fit">${answer.stand_ins.map(buy)}</ul></section>` : nothing}
  ${changes(answer.changes)} ${measure(answer.measure)} ${cautions(answer.cautions)}
  ${assumed([...new Set([...answer.assumed, ...(answer.readings[0]?.assumed ?? [])])])} ${everything(answer.findings)}
`;
