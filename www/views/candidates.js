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
/** And how many other names; a tube's own page has them all. */
const NAMES = 6;

/** @type {Record<Grade, Mark>} */
export const MARKS = { same: "yes", as_is: "yes", as_is_different: "care", after_changes: "care", no: "no", unknown: "unknown" };

/** @typedef {(type: string) => void} Take what a tap does */

/** @param {Ranked} one @param {Take} take */
const row = (one, take) => html`<li>
  <button type="button" class="candidate" @click=${() => take(one.type)}>
    <b>${one.type}</b>
    ${one.found_today ? html`<i>${SAY.foundWays[one.found_today] ?? one.found_today}</i>` : nothing}
    ${one.ways.length
      ? html`<span class="per-way">
          ${one.ways.map(([feed, grade]) => html`<span>${sign(MARKS[grade])} ${WORDS.feeds[feed] ?? feed}: ${WORDS.grades[grade].toLowerCase()}</span>`)}
        </span>`
      : html`<span class="says">${one.says}</span>`}
    ${one.names.length ? html`<span class="also">${SAY.otherNames} ${one.names.slice(0, NAMES).join(", ")}${one.names.length > NAMES ? " …" : ""}</span>` : nothing}
  </button>
</li>`;

/** @param {string} title @param {Mark} mark @param {Ranked[]} all @param {Take} take */
const group = (title, mark, all, take) => {
  if (!all.length) return nothing;
  const rest = all.slice(IN_SIGHT);
  return html`<section class="group">
    <h4>${sign(mark)} ${title}</h4>
    <ul class="candidates">${all.slice(0, IN_SIGHT).map((one) => row(one, take))}</ul>
    ${rest.length
      ? html`<details class="fold">
          <summary>${WORDS.more(rest.length)}</summary>
          <ul class="candidates">${rest.map((one) => row(one, take))}</ul>
        </details>`
      : nothing}
  </section>`;
};

/** Types by grade, best first. @param {Ranked[]} ranked @param {Take} take */
export const ranking = (ranked, take) => {
  const either = ranked.filter(({ ways }) => !ways.length);
  const depends = ranked.filter(({ ways }) => ways.length);
  return html`
    ${/** @type {Grade[]} */ (Object.keys(MARKS)).map((grade) =>
      group(WORDS.grades[grade], MARKS[grade], either.filter((one) => one.grade === grade), take),
    )}
    ${group(SAY.depends, "care", depends, take)}
  `;
};

/** @param {import("../answers").CandidatesAnswer} answer @param {Verbs} on */
export const candidates = ({ ranked, looked_at }, on) => html`<section>
    <h3>${SAY.goesIn}</h3>
    ${ranked.length ? ranking(ranked, (have) => on.take({ have })) : html`<p>${SAY.nothingGoes}</p>`}
    <p class="aside">${SAY.looked(looked_at)}</p>
  </section>`;
