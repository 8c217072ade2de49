// The verdict: the largest type on the page, a word and a mark. It is a live region that stays in place, so that a screen reader says
// each new verdict and nothing jumps when it changes.

import { html, nothing, svg } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { quoted } from "./fault.js";

/** @typedef {import("../answers").Verdict} Verdict */
/** @typedef {import("../answers").Mark} Mark */

/** Told apart by shape first: a tick, a bang in a lozenge, a barred octagon, a question mark in a broken ring. @type {Record<Mark, unknown>} */
const SHAPES = {
  yes: svg`<circle class="ground" cx="24" cy="24" r="21" /><path class="line" d="M13 25l8 8 15-17" />`,
  care: svg`<path class="ground" d="M24 2l22 22-22 22L2 24z" /><path class="line" d="M24 12v15" /><circle class="dot" cx="24" cy="35" r="3" />`,
  no: svg`<path class="ground" d="M15 3h18l12 12v18L33 45H15L3 33V15z" /><path class="line" d="M13 24h22" />`,
  unknown: svg`<circle class="ring" cx="24" cy="24" r="20" /><path class="query" d="M17.5 19a6.5 6.5 0 1 1 9 6c-2 1-2.500 2-2.500 4.500" /><circle class="query-dot" cx="24" cy="35.500" r="2.600" />`,
};

/** A mark by itself. @param {Mark} mark @param {string} [label] heard in its place; none where a word stands beside it */
export const sign = (mark, label) => html`<svg
  class="sign ${mark}"
  viewBox="0 0 48 48"
  role=${label ? "img" : nothing}
  aria-label=${label ?? nothing}
  aria-hidden=${label ? nothing : "true"}
>
  ${SHAPES[mark]}
</svg>`;

/** @param {Verdict} verdict */
const filled = ({ mark, word, says }) => html`${sign(mark)}
  <div>
    <h2>${word}</h2>
    ${says && says !== word ? html`<p>${quoted(says)}</p>` : nothing}
  </div>`;

/** The verdict, or what is waited for. @param {Verdict | null} verdict @param {string} waiting */
export const verdict = (verdict, waiting) => html`<div class="verdict ${verdict?.mark ?? "waiting"}" part="verdict verdict-${verdict?.mark ?? "waiting"}" role="status" aria-live="polite" aria-atomic="true">
  ${verdict ? filled(verdict) : html`<p>${waiting}</p>`}
</div>`;

/**
 * What a tube is, and whether anything can go in: the tube is named first, and the mark is that of the stand-ins. With none asked for
 * there is nothing to approve, so it bears no mark.
 * @param {Verdict} tube
 * @param {Verdict | null} standIns
 */
export const identity = ({ word, says }, standIns) => {
  const is = says.startsWith(`${word}: `) ? says.slice(word.length + 2) : says;
  return html`<div class="verdict ${standIns?.mark ?? "plain"}" part="verdict verdict-${standIns?.mark ?? "plain"}" role="status" aria-live="polite" aria-atomic="true">
    ${standIns ? sign(standIns.mark) : nothing}
    <div>
      ${standIns
        ? html`<p class="named"><b>${word}</b> ${is}</p><h2>${standIns.word}</h2><p>${standIns.says}</p>`
        : html`<h2>${word}</h2>${is ? html`<p>${is}</p>` : nothing}`}
    </div>
  </div>`;
};

/** What stands in place of an answer while the core starts, or when it does not. @param {import("../state.js").State} state @returns {Verdict | null} */
export const trouble = (state) => {
  const { failed, trapped } = WORDS;
  if (state.core === "failed") return { mark: "unknown", word: failed.word, says: failed.says(state.reason) };
  return state.core === "trapped" ? { mark: "unknown", ...trapped } : null;
};
