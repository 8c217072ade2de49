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

/** @typedef {Map<string, string>} Why why a check matters, by its name */

/** @param {Finding} finding */
const against = ({ wanted, found }) =>
  wanted || found
    ? html`<span class="against">
        ${wanted ? html`<span><i>${SAY.asked}</i> <b>${wanted}</b></span>` : nothing}
        ${found ? html`<span><i>${SAY.has}</i> <b>${found}</b></span>` : nothing}
      </span>`
    : nothing;

/** One thing looked at: its name, figure against figure, the sentence, and why it matters. @param {Finding} one @param {Why} [why] */
const finding = (one, why) => {
  const { check, outcome, says } = one;
  const matters = why?.get(check);
  return html`<li class="finding ${outcome}">
  ${sign(MARKS[outcome], SAY.outcomes[outcome])}
  <div>
    <h4>${check}</h4>
    ${against(one)}
    <p>${quoted(says)}</p>
    ${matters ? html`<details class="fold why"><summary>${SAY.matters}</summary><p>${matters}</p></details>` : nothing}
  </div>
</li>`;
};

/** @param {Finding[]} all @param {string} [title] @param {Why} [why] */
export const reasons = (all, title = SAY.reasons, why) =>
  all.length ? html`<section><h3>${title}</h3><ul class="findings">${all.map((one) => finding(one, why))}</ul></section>` : nothing;

/** Every check in one line each, the deciding one first; a tap says more. @param {Finding[]} all @param {string} about @param {Why} why */
export const checks = (all, about, why) => {
  if (!all.length) return nothing;
  const counts = /** @type {Mark[]} */ (["no", "unknown", "care", "yes"]).map((mark) => ({ mark, count: all.filter((one) => MARKS[one.outcome] === mark).length }));
  const title = html`<span>${about ? `${SAY.checks}: ${about}` : SAY.checks}</span>
    <span class="counts">${counts.map(({ mark, count }) => (count ? html`<span>${sign(mark, WORDS.marks[mark])} ${count}</span>` : nothing))}</span>`;
  return folded(title, html`<ul class="checks">
    ${all.map(
      (one) => html`<li><details class="fold finding ${one.outcome}">
        <summary>${sign(MARKS[one.outcome], SAY.outcomes[one.outcome])}<span><b>${one.check}</b>${one.wanted || one.found ? against(one) : html`<span class="aside">${SAY.outcomes[one.outcome]}</span>`}</span></summary>
        <p>${quoted(one.says)}</p>
        ${why.has(one.check) ? html`<p class="aside"><b>${SAY.matters}</b> ${why.get(one.check)}</p>` : nothing}
      </details></li>`,
    )}
  </ul>`);
};

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

/** @param {Change[]} all @param {string} [title] @param {string} [work] how much work it is */
export const changes = (all, title = SAY.changes, work = "") =>
  all.length ? html`<section><h3>${title}</h3>${work ? html`<p class="work"><i>${SAY.work}</i> ${work}</p>` : nothing}${steps(all)}</section>` : nothing;

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

/** @param {unknown} title @param {unknown} inside */
export const folded = (title, inside) => html`<details class="fold"><summary>${title}</summary>${inside}</details>`;

/** @param {Finding[]} all @param {string} [about] */
export const everything = (all, about) =>
  all.length ? folded(about ? `${SAY.all}: ${about}` : SAY.all, html`<ul class="findings">${all.map((one) => finding(one))}</ul>`) : nothing;

/** @param {string[]} all */
export const assumed = (all) =>
  all.length ? folded(SAY.assumed, html`<ul class="lines">${all.map((says) => html`<li>${says}</li>`)}</ul>`) : nothing;
