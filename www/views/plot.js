// What the curves over time share: seconds to the right, values up, the labels of the lines in a column of their own at the right,
// moved apart so that none covers another.

import { svg } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";

/** @typedef {{ at: number, says: string, kind: string }} Level a line across, and what stands at its end */

const LEFT = 8;
const RIGHT = 196;
const TOP = 22;
const BOTTOM = 196;
/** The least distance between two labels. */
const APART = 22;
/** Seconds written under the curve. */
const TICKS = [0, 20, 40, 60];

/**
 * Scales of one drawing.
 * @param {number} seconds at the right
 * @param {[number, number]} range at the bottom and at the top
 */
export const scales = (seconds, [least, most]) => {
  const x = (/** @type {number} */ s) => LEFT + ((RIGHT - LEFT) * s) / seconds;
  const y = (/** @type {number} */ value) => BOTTOM - ((BOTTOM - TOP) * (Math.min(Math.max(value, least), most) - least)) / (most - least || 1);
  return {
    /** @param {[number, number][]} points seconds and value */
    path: (points) => points.map(([s, value], at) => `${at ? "L" : "M"}${x(s).toFixed(1)} ${y(value).toFixed(1)}`).join(""),
    /** The floor, and the seconds under it. */
    floor: () => svg`<path class="axis" d="M${LEFT} ${BOTTOM}H${RIGHT}" />
      ${TICKS.filter((s) => s <= seconds).map((s) => svg`
        <path class="axis" d="M${x(s)} ${BOTTOM}v6" />
        <text x=${x(s)} y=${BOTTOM + 24} text-anchor=${s === 0 ? "start" : "middle"}>${s === seconds ? `${s} ${WORDS.rectifier.seconds}` : s}</text>`)}`,
    /** Lines across, labelled at the right. @param {Level[]} levels */
    levels: (levels) => {
      const sorted = [...levels].sort((one, other) => other.at - one.at);
      /** @type {number[]} */
      const places = [];
      for (const { at } of sorted) places.push(Math.max(y(at), (places.at(-1) ?? -APART) + APART));
      // What was pushed below the floor goes up again.
      const over = (places.at(-1) ?? 0) - BOTTOM;
      if (over > 0) for (let at = places.length - 1, most = BOTTOM; at >= 0; at -= 1, most -= APART) places[at] = Math.min(places[at], most);
      return sorted.map(({ at, says, kind }, index) => svg`
        <path class="level ${kind}" d="M${LEFT} ${y(at).toFixed(1)}H${RIGHT}L${RIGHT + 12} ${places[index].toFixed(1)}" />
        <text class=${kind} x=${RIGHT + 16} y=${(places[index] + 6).toFixed(1)}>${says}</text>`);
    },
  };
};

/** The drawing's size. */
export const BOX = "0 0 340 226";
