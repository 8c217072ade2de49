// A whole parts list at once: what to buy, printed for the shop, and what became of every line.

import { html, nothing, svg } from "../vendor/lit-html.js";
import { LASTING } from "../sheets.js";
import { LIST, WORDS } from "../words.js";
import { fault, quoted } from "./fault.js";
import { choice, figure, foot, text } from "./fields.js";
import { cautions } from "./findings.js";
import { sign, verdict } from "./verdict.js";

/** @typedef {import("../answers").ListLine} ListLine */
/** @typedef {import("../answers").PartsListAnswer} PartsListAnswer */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { list: SAY, units: UNITS } = WORDS;

/** @param {State} state @param {Verbs} on */
export const listQuestion = (state, on) => {
  const fields = state.fields.list;
  const wrong = fault("list", state.answers);
  const blank = (/** @type {"lines" | "line_v"} */ name) => ({ name, label: SAY[name], fields, on, fault: wrong });
  return html`
    ${text({ ...blank("lines"), wide: true, many: true, placeholder: SAY.linesPlaceholder, help: SAY.linesHelp })}
    ${fields.lines ? nothing : html`<p><button type="button" class="act" @click=${() => on.set({ lines: LIST })}>${SAY.example}</button></p>`}
    ${figure({ ...blank("line_v"), unit: UNITS.v })} ${choice("line_hz", SAY.line_hz, SAY.hzWays, fields.line_hz ?? "", (hz) => on.choose("line_hz", hz))}
    ${foot(nothing, on, Object.keys(fields).some((name) => fields[name] && !LASTING.includes(name)))}
  `;
};

/** A basket to fill; nothing for us here. */
const BUY = html`<svg class="sign buy" viewBox="0 0 48 48" aria-hidden="true">${svg`<path class="ground" d="M4 16h40l-6 28H10z" /><path class="handle" d="M13 18L22 4M35 18L26 4" />`}</svg>`;
const OTHER = html`<svg class="sign other" viewBox="0 0 48 48" aria-hidden="true">${svg`<circle class="ring" cx="24" cy="24" r="20" /><path class="handle" d="M14 24h20" />`}</svg>`;
/** @type {Record<import("../answers").LineState, unknown>} */
const SIGNS = { buy: BUY, leave: sign("yes"), check: sign("care"), other: OTHER, unread: sign("unknown") };

/** @param {import("../answers").LineState} state */
const state = (state) => html`<span class="state">${SIGNS[state]}<b>${SAY.states[state]}</b></span>`;

/** @param {ListLine} line */
const why = ({ says, reads, unused }) => html`
  ${reads && !says.includes(reads) ? html`<p>${SAY.reads} ${reads}</p>` : nothing}
  <p>${quoted(says)}</p>
  ${unused.length ? html`<p class="aside">${SAY.unused(unused)}</p>` : nothing}`;

// The roles are said again because the narrow table is laid out as blocks, which takes them away in some browsers.
/** @param {ListLine[]} lines @param {string} label */
const table = (lines, label) => html`<table class="all-lines" role="table" aria-label=${label}>
  <thead role="rowgroup"><tr role="row">${SAY.head.map((word) => html`<th scope="col" role="columnheader">${word}</th>`)}</tr></thead>
  <tbody role="rowgroup">
    ${lines.map((line) => html`<tr role="row" class=${line.state}>
      <th scope="row" role="rowheader"><i>${line.line}</i> ${line.text}</th><td role="cell">${state(line.state)}</td><td role="cell">${why(line)}</td>
    </tr>`)}
  </tbody>
</table>`;

/** @param {PartsListAnswer} answer */
const shopping = ({ shopping, lines }) => {
  const name = (/** @type {number} */ number) => lines.find(({ line }) => line === number)?.reference || SAY.lineName(number);
  return html`<ul class="shopping">
    ${shopping.map(({ shop, count, lines }) => {
      // The code printed on the new part, or its bands, stands by itself: it is what one looks for.
      const [what, code] = shop.split(/, (?=marked |bands )/);
      return html`<li><span class="count">${SAY.times(count)}</span><div><b>${what}</b>${code ? html`<p>${code}</p>` : nothing}<p class="aside">${SAY.forLines(lines.map(name))}</p></div></li>`;
    })}
  </ul>`;
};

/** @param {PartsListAnswer} answer @param {Verbs} on */
export const list = (answer, on) => {
  const open = answer.lines.filter(({ state }) => state === "check" || state === "unread");
  return html`
    ${verdict(answer.verdict, "")}
    <section>
      <h3>${SAY.shopping}</h3>
      ${answer.shopping.length ? shopping(answer) : html`<p>${SAY.nothing}</p>`}
      <p class="onward"><button type="button" class="act" @click=${on.print}>${SAY.print}</button></p>
    </section>
    ${open.length ? html`<section><h3>${SAY.open}</h3><p>${SAY.openWhy}</p>${table(open, SAY.open)}</section>` : nothing}
    <section><h3>${SAY.all}</h3>${table(answer.lines, SAY.all)}</section>
    ${cautions(answer.cautions)}
  `;
};
