// The string from cold: each part's volts as a percentage of its rating over the first half minute or so. Parts that go alike are one
// curve. The part that gets the most is emphasised and named; a table says the same.

import { html, nothing, svg } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { folded, short } from "./findings.js";
import { BOX, scales } from "./plot.js";

/** @typedef {import("../answers").HeaterStringAnswer} HeaterStringAnswer */

const { heaters: SAY, rectifier: SUPPLY, units: UNITS } = WORDS;
/** Volts on a heater that is still cold are borne up to this, percent: above the core refuses. */
const LIMIT = 150;
/** Seconds of the table. */
const AT = [0, 5, 10, 20, 40];
/** Curves nearer than this everywhere are drawn as one, percent. */
const ALIKE = 6;

/** What is in a string and has no heater. @param {string} name */
export const isResistor = (name) => /ohm$/i.test(name);

/** @param {HeaterStringAnswer} answer */
export const warmUp = ({ heaters, warm_up }) => {
  if (warm_up.length < 2) return nothing;
  const parts = heaters.flatMap(({ type, rated_v }, at) => {
    if (isResistor(type) || rated_v <= 0) return [];
    const percent = warm_up.map(({ v }) => (100 * (v[at] ?? 0)) / rated_v);
    const most = Math.max(...percent);
    return [{ type, percent, most, when: warm_up[percent.indexOf(most)].s }];
  });
  if (!parts.length) return nothing;
  const worst = parts.reduce((one, other) => (other.most > one.most + 0.5 ? other : one));
  /** @type {typeof parts} */
  const curves = [];
  for (const part of [worst, ...parts]) {
    if (!curves.some(({ percent }) => percent.every((value, at) => Math.abs(value - part.percent[at]) < ALIKE))) curves.push(part);
  }
  const last = warm_up[warm_up.length - 1];
  const { path, floor, levels } = scales(last.s, [0, Math.max(LIMIT + 10, worst.most * 1.05)]);
  const curve = (/** @type {typeof worst} */ part) => path(warm_up.map(({ s }, at) => [s, part.percent[at]]));
  const seconds = (/** @type {number} */ s) => `${short(s)} ${SUPPLY.seconds}`;
  // Settled from below: then nothing is taken beyond what it takes warm.
  const when = worst.when === 0 ? SAY.atOnce : SAY.after(seconds(worst.when));
  const says = SAY.warmUpSays(worst.type, `${short(worst.most)} %`, when, `${short(warm_up[0].a)} ${UNITS.a}`, `${short(last.a)} ${UNITS.a}`);
  const at = AT.filter((s) => s <= last.s);
  return html`<section>
    <h3>${SAY.warmUp}</h3>
    <figure class="ripple">
      <svg viewBox=${BOX} role="img" aria-label=${says}>
        ${svg`
          ${floor()}
          ${levels([
            { at: 100, says: SAY.warmUpKeys.rated, kind: "warm" },
            { at: LIMIT, says: SAY.warmUpKeys.limit, kind: "rated low" },
          ])}
          ${curves.slice(1).map((part) => svg`<path class="other" d=${curve(part)} />`)}
          <path class="amps" d=${curve(worst)} />
        `}
      </svg>
      <figcaption>${says}</figcaption>
    </figure>
    ${folded(SAY.warmUpTable, html`<table class="lines-table">
      <caption>${SAY.warmUpHead}</caption>
      <thead><tr><td></td>${at.map((s) => html`<th scope="col">${seconds(s)}</th>`)}</tr></thead>
      <tbody>
        ${parts.map(({ type, percent }) => html`<tr>
          <th scope="row">${type}</th>
          ${at.map((s) => html`<td>${short(percent[warm_up.findIndex((point) => point.s >= s)])}</td>`)}
        </tr>`)}
      </tbody>
    </table>`)}
  </section>`;
};
