// B+ over the first minute: the jump to the crest of the line before the tubes draw, and the settling to the warm value, with the
// rating of the filter capacitors as a line across. A line 10 % low and high is the band about it.

import { html, nothing, svg } from "../vendor/lit-html.js";
import { number } from "../questions.js";
import { WORDS } from "../words.js";
import { short } from "./findings.js";
import { BOX, scales } from "./plot.js";

/** @typedef {import("../answers").RectifierAnswer} RectifierAnswer */
/** @typedef {import("../answers").LineCase} LineCase */
/** @typedef {import("../sheets.js").Fields} Fields */

const { rectifier: SAY, units: UNITS } = WORDS;

/** @param {number} value */
const volts = (value) => `${short(value)} ${UNITS.v}`;

/** @param {RectifierAnswer} answer @param {Fields} fields */
export const minute = ({ start, lines, first_filter }, fields) => {
  const line = (/** @type {string} */ which) => lines.find((one) => one.line === which);
  const [low, nominal, high] = [line("low"), line("nominal"), line("high")];
  if (start.length < 2 || !low || !nominal || !high) return nothing;
  const peak = Math.max(...start.map((point) => point.first_filter_v));
  const end = start[start.length - 1];
  const settled = start.find(({ s, first_filter_v }) => s > 2 && Math.abs(first_filter_v - end.first_filter_v) < 0.02 * end.first_filter_v) ?? end;
  /** The same curve on another line, so that its cold and its warm value are those of that line. @param {LineCase} other @param {number} value */
  const onLine = (other, value) =>
    other.warm_v + ((value - nominal.warm_v) * (other.cold_v - other.warm_v)) / Math.max(nominal.cold_v - nominal.warm_v, 1);
  // In a full-wave doubler the two capacitors share the volts, so that their rating is no line in this drawing.
  const shared = fields.wiring === "doubler" && fields.doubler !== "half";
  const given = number(fields.rated_v);
  const rated = typeof given === "number" ? given : first_filter.least_rated_v;
  const enough = rated >= first_filter.least_rated_v;
  const top = Math.max(shared ? 0 : rated, high.cold_v, peak) * 1.03;
  const { path, floor, levels } = scales(end.s, [Math.floor(0.06 * low.warm_v) * 10, top]);
  const curve = (/** @type {(value: number) => number} */ value) =>
    start.map((point) => /** @type {[number, number]} */ ([point.s, value(point.first_filter_v)]));
  const says = [
    SAY.minuteSays(volts(peak), volts(end.first_filter_v), `${short(settled.s)} ${SAY.seconds}`),
    SAY.minuteHigh(volts(high.cold_v), volts(high.warm_v), volts(low.warm_v)),
    shared ? SAY.minuteEach(volts(first_filter.least_rated_v)) : given === undefined ? SAY.minuteLeast(volts(rated)) : SAY.minuteRated(volts(rated), enough),
  ].join(" ");
  const key = SAY.minuteKeys;
  return html`<figure class="ripple minute">
    <svg viewBox=${BOX} role="img" aria-label=${says}>
      ${svg`
        <path class="band" d="${path(curve((value) => onLine(high, value)))}${path(curve((value) => onLine(low, value)).reverse()).replace("M", "L")}Z" />
        ${floor()}
        ${levels([
          { at: peak, says: `${key.cold} ${volts(peak)}`, kind: "cold" },
          { at: end.first_filter_v, says: `${key.warm} ${volts(end.first_filter_v)}`, kind: "warm" },
          ...(shared ? [] : [{ at: rated, says: `${key.rated} ${volts(rated)}`, kind: enough ? "rated" : "rated low" }]),
        ])}
        <path class="volts" d=${path(curve((value) => value))} />
      `}
    </svg>
    <figcaption>${says}</figcaption>
  </figure>`;
};
