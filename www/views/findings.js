// What every answer is made of beside its verdict: reasons, changes, measurements, cautions, checks, assumptions.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { quoted } from "./fault.js";
import { sign } from "./verdict.js";

/** @typedef {import("../answers").Finding} Finding */
/** @typedef {import("../answers").Change} Change */
/** @typedef {import("../answers").Caution} Caution */
/** @typedef {import("../answers").Outcome} Outcome */
/** @typedef {import("../answers").Mark} Mark */

const { findings: SAY } = WORDS;

/** @type {Record<Outcome, Mark>} */
const MARKS = { ok: "yes", differs: "care", needs_change: "care", unknown: "unknown", fails: "no" };

/** One thing looked at: its name, figure against figure, the sentence. @param {Finding} finding */
const finding = ({ check, outcome, wanted, found, says }) => html`<li class="finding ${outcome}">
  ${sign(MARKS[outcome], SAY.outcomes[outcome])}
  <div>
    <h4>${check}</h4>
    ${wanted || found
      ? html`<p class="against">
          ${wanted ? html`<span><i>${SAY.asked}</i> <b>${wanted}</b></span>` : nothing}
          ${found ? html`<span><i>${SAY.has}</i> <b>${found}</b></span>` : nothing}
        </p>`
      : nothing}
    <p>${quoted(says)}</p>
  </div>
</li>`;

/** @param {Finding[]} all @param {string} [title] */
export const reasons = (all, title = SAY.reasons) =>
  all.length ? html`<section><h3>${title}</h3><ul class="findings">${all.map(finding)}</ul></section>` : nothing;

/** A figure without a needless tail. @param {number} value @param {number} [digits] */
export const short = (value, digits = 3) => String(Number(value.toPrecision(digits)));

/** @param {Change} change */
const change = ({ says, part, moves }) => html`<li>
  <p>${says}</p>
  ${part
    ? html`<dl class="part">
        <div><dt>${part.part}</dt><dd>${part.value}</dd></div>
        <div><dt>${SAY.buy}</dt><dd>${part.rating}</dd></div>
        ${part.dissipates_w === undefined
          ? nothing
          : html`<div><dt>${SAY.heat}</dt><dd>${short(part.dissipates_w)} ${WORDS.units.w}</dd></div>`}
      </dl>`
    : nothing}
  ${moves?.length
    ? html`<table class="moves">
        <thead><tr><th scope="col">${SAY.wire}</th><th scope="col">${SAY.from}</th><th scope="col">${SAY.to}</th></tr></thead>
        <tbody>
          ${moves.map(({ electrode, from, to }) => html`<tr><th scope="row">${electrode}</th><td>${from}</td><td>${to}</td></tr>`)}
        </tbody>
      </table>`
    : nothing}
</li>`;

/** Steps one after another. @param {Change[]} all */
export const steps = (all) => html`<ol class="changes">${all.map(change)}</ol>`;

/** @param {Change[]} all @param {string} [title] */
export const changes = (all, title = SAY.changes) => (all.length ? html`<section><h3>${title}</h3>${steps(all)}</section>` : nothing);

/** Where it cannot be told, the way to the blanks that would settle it. @param {import("../answers").Verdict} verdict @param {string} label @param {() => void} tell */
export const offer = ({ mark }, label, tell) =>
  mark === "unknown" ? html`<p><button type="button" class="act" @click=${tell}>${label}</button></p>` : nothing;

/** @param {string[]} all */
export const measure = (all) =>
  all.length
    ? html`<section><h3>${SAY.measure}</h3><ul class="lines">${all.map((says) => html`<li>${says}</li>`)}</ul></section>`
    : nothing;

/** Each topic once; where they come from is folded. @param {Caution[]} all */
export const cautions = (all) => {
  const once = all.filter(({ topic }, at) => all.findIndex((other) => other.topic === topic) === at);
  if (!once.length) return nothing;
  return html`<section class="cautions">
    <h3>${SAY.cautions}</h3>
    <ul class="lines">${once.map(({ topic, says }) => html`<li><b>${topic}:</b> ${says}</li>`)}</ul>
    ${folded(SAY.cautionSources, html`<ul class="lines">${once.map(({ topic, source }) => html`<li><b>${topic}:</b> ${source}</li>`)}</ul>`)}
  </section>`;
};

/** @param {string} title @param {unknown} inside */
export const folded = (title, inside) => html`<details class="fold"><summary>${title}</summary>${inside}</details>`;

/** @param {Finding[]} all @param {string} [about] */
export const everything = (all, about) =>
  all.length ? folded(about ? `${SAY.all}: ${about}` : SAY.all, html`<ul class="findings">${all.map(finding)}</ul>`) : nothing;

/** @param {string[]} all */
export const assumed = (all) =>
  all.length ? folded(SAY.assumed, html`<ul class="lines">${all.map((says) => html`<li>${says}</li>`)}</ul>`) : nothing;
