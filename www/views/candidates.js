// What could go in, best first, each one tap from its judgement.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { sign } from "./verdict.js";

/** @typedef {import("../answers").Ranked} Ranked */
/** @typedef {import("../answers").Grade} Grade */
/** @typedef {import("../answers").Mark} Mark */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { swap: SAY } = WORDS;

/** How many of a grade stand in sight; the rest is one tap away. */
const IN_SIGHT = 6;

/** @type {Record<Grade, Mark>} */
export const MARKS = { same: "yes", as_is: "yes", as_is_different: "care", after_changes: "care", no: "no", unknown: "unknown" };

/** @param {Ranked} one @param {Verbs} on */
const row = (one, on) => html`<li>
  <button type="button" class="candidate" @click=${() => on.take({ have: one.type })}>
    <b>${one.type}</b>
    ${one.found_today ? html`<i>${SAY.foundWays[one.found_today] ?? one.found_today}</i>` : nothing}
    ${one.ways.length
      ? html`<span class="per-way">
          ${one.ways.map(([feed, grade]) => html`<span>${sign(MARKS[grade])} ${WORDS.feeds[feed] ?? feed}: ${WORDS.grades[grade].toLowerCase()}</span>`)}
        </span>`
      : html`<span class="says">${one.says}</span>`}
    ${one.names.length ? html`<span class="also">${SAY.otherNames} ${one.names.join(", ")}</span>` : nothing}
  </button>
</li>`;

/** @param {string} title @param {Mark} mark @param {Ranked[]} all @param {Verbs} on */
const group = (title, mark, all, on) => {
  if (!all.length) return nothing;
  const rest = all.slice(IN_SIGHT);
  return html`<section class="group">
    <h4>${sign(mark)} ${title}</h4>
    <ul class="candidates">${all.slice(0, IN_SIGHT).map((one) => row(one, on))}</ul>
    ${rest.length
      ? html`<details class="fold">
          <summary>${WORDS.more(rest.length)}</summary>
          <ul class="candidates">${rest.map((one) => row(one, on))}</ul>
        </details>`
      : nothing}
  </section>`;
};

/** @param {import("../answers").CandidatesAnswer} answer @param {Verbs} on */
export const candidates = ({ ranked, looked_at }, on) => {
  const either = ranked.filter(({ ways }) => !ways.length);
  const depends = ranked.filter(({ ways }) => ways.length);
  return html`<section>
    <h3>${SAY.goesIn}</h3>
    ${ranked.length ? nothing : html`<p>${SAY.nothingGoes}</p>`}
    ${/** @type {Grade[]} */ (Object.keys(MARKS)).map((grade) =>
      group(WORDS.grades[grade], MARKS[grade], either.filter((one) => one.grade === grade), on),
    )}
    ${group(SAY.depends, "care", depends, on)}
    <p class="aside">${SAY.looked(looked_at)}</p>
  </section>`;
};
