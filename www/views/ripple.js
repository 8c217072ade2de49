// One cycle in the steady state: the first filter's volts and the diode's current under each other, with the same said in words.

import { html, nothing, svg } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { short } from "./findings.js";

/** @typedef {import("../answers").WaveformPoint} WaveformPoint */

const { rectifier: SAY, units: UNITS } = WORDS;
const LEFT = 8;
const RIGHT = 332;
const VOLTS = { top: 34, bottom: 112 };
const AMPS = { top: 150, bottom: 206 };

/**
 * @param {WaveformPoint[]} points
 * @param {(point: WaveformPoint) => number} value
 * @param {{ top: number, bottom: number }} band
 * @param {[number, number]} range
 */
const path = (points, value, band, [least, most]) => {
  const cycle = points.at(-1)?.ms || 1;
  const x = (/** @type {WaveformPoint} */ point) => LEFT + ((RIGHT - LEFT) * point.ms) / cycle;
  const y = (/** @type {WaveformPoint} */ point) => band.bottom - ((band.bottom - band.top) * (value(point) - least)) / (most - least || 1);
  return points.map((point, at) => `${at ? "L" : "M"}${x(point).toFixed(1)} ${y(point).toFixed(1)}`).join("");
};

/** @param {WaveformPoint[]} points */
export const ripple = (points) => {
  if (points.length < 2) return nothing;
  const volts = points.map((point) => point.first_filter_v);
  const [low, high] = [Math.min(...volts), Math.max(...volts)];
  const crest = Math.max(...points.map((point) => point.current_ma));
  // The last point stands one step before the cycle begins again.
  const ms = ((points.at(-1)?.ms ?? 0) * points.length) / (points.length - 1);
  const texts = [`${short(low)} ${UNITS.v}`, `${short(high)} ${UNITS.v}`, `${short(ms)} ms`, `${short(crest)} ${UNITS.ma}`];
  const says = SAY.waveformSays(texts[0], texts[1], texts[2], texts[3]);
  return html`<figure class="ripple">
    <svg viewBox="0 0 340 234" role="img" aria-label=${says}>
      ${svg`
        <text x=${LEFT} y="18">${SAY.volts}: ${texts[0]} – ${texts[1]}</text>
        <path class="axis" d="M${LEFT} ${VOLTS.top}H${RIGHT}M${LEFT} ${VOLTS.bottom}H${RIGHT}" />
        <path class="volts" d=${path(points, (point) => point.first_filter_v, VOLTS, [low, high])} />
        <text x=${LEFT} y="138">${SAY.current}: 0 – ${texts[3]}</text>
        <path class="axis" d="M${LEFT} ${AMPS.bottom}H${RIGHT}" />
        <path class="amps" d=${path(points, (point) => point.current_ma, AMPS, [0, crest])} />
        <text x=${RIGHT} y="227" text-anchor="end">${texts[2]}</text>
      `}
    </svg>
    <figcaption>${says}</figcaption>
  </figure>`;
};
