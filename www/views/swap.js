// A swap judged: verdict, reasons, changes, sockets, cautions; with the supply unknown, both ways side by side.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { cautions, changes, everything, measure, reasons } from "./findings.js";
import { legend, marksOf, pinTable, socket } from "./socket.js";
import { tubeSheet } from "./tube_sheet.js";
import { sign, verdict } from "./verdict.js";

/** @typedef {import("../answers").SwapAnswer} SwapAnswer */
/** @typedef {import("../answers").Way} Way */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */
/** @typedef {import("../sheets.js").Fields} Fields */

const { swap: SAY } = WORDS;

/** The facts that would settle it, offered there and then. @param {Way} way @param {Fields} fields @param {Verbs} on */
const missing = (way, fields, on) => {
  if (way.grade !== "unknown") return nothing;
  return html`<section>
    <h3>${SAY.missing}</h3>
    <ul class="lines">${way.missing.map((says) => html`<li>${says}</li>`)}</ul>
    <p><button type="button" class="act" @click=${() => on.tell(true, "plate_v")}>${SAY.tell}</button></p>
    <p class="actions">
      ${[fields.set, fields.have].filter((type) => type && way.missing.some((says) => says.includes(type))).map(
        (type) => html`<button type="button" class="act" @click=${() => on.go("row", { type })}>${SAY.fillRow(type)}</button>`,
      )}
    </p>
  </section>`;
};

/** @param {Way} way @param {Fields} fields @param {Verbs} on */
const body = (way, fields, on) =>
  html`${reasons(way.reasons)} ${missing(way, fields, on)} ${changes(way.changes)} ${measure(way.measure)}`;

/** What both ways say alike is said once. @param {Way[]} ways */
const alike = (ways) => {
  const said = ways.map(({ verdict, reasons, changes }) => JSON.stringify([verdict, reasons, changes]));
  return said.every((one) => one === said[0]);
};

/** @param {Way[]} ways @param {Fields} fields @param {Verbs} on */
const judged = (ways, fields, on) => {
  if (ways.length === 1) return body(ways[0], fields, on);
  if (alike(ways)) {
    const whole = { ...ways[0], measure: [...new Set(ways.flatMap((way) => way.measure))] };
    return html`<p class="aside">${SAY.eitherWay(ways.map((way) => way.supply_words))}.</p>${body(whole, fields, on)}`;
  }
  return html`<div class="both">
    ${ways.map(
      (way) => html`<article class="way">
        <header class=${way.verdict.mark}>${sign(way.verdict.mark)}<div><h3>${capital(way.supply_words)}</h3><p>${way.verdict.word}</p></div></header>
        ${body(way, fields, on)}
      </article>`,
    )}
  </div>`;
};

/** A tube found under another name than the one typed. @param {string} typed @param {string} type */
const readAs = (typed, type) => {
  const plain = (/** @type {string} */ text) => text.toUpperCase().replace(/[^A-Z0-9]/g, "");
  return plain(typed) === plain(type) ? nothing : html`<p class="aside">${SAY.readAs(typed.trim(), type)}</p>`;
};

/** @param {string} text */
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/** @param {SwapAnswer} answer */
const sockets = ({ original, candidate, ways, danger_pins }) => {
  const moves = ways.map((way) => way.changes.flatMap((change) => change.moves ?? [])).find((all) => all.length) ?? [];
  const alikeBases = original.base === candidate.base;
  const [from, to] = marksOf(moves, danger_pins, alikeBases);
  return html`<section>
    <h3>${SAY.sockets}</h3>
    ${danger_pins.length ? html`<p class="danger">${sign("no")} ${WORDS.socket.dangerPins(danger_pins)}</p>` : nothing}
    <div class="sockets">
      ${socket(original, SAY.setWants(original.type), from)} ${socket(candidate, SAY.candidate(candidate.type), to)}
    </div>
    ${legend([original, candidate], [from, to])}
    ${pinTable([{ tube: original, marks: from }, { tube: candidate, marks: to }])}
  </section>`;
};

/** @param {SwapAnswer} answer @param {Fields} fields @param {State} state @param {Verbs} on */
export const swap = (answer, fields, state, on) => {
  const checks = answer.ways.length === 1 ? [{ title: "", all: answer.ways[0].findings }]
    : answer.ways.map((way) => ({ title: way.supply_words, all: way.findings }));
  return html`
    ${verdict(answer.verdict, "")}
    ${readAs(fields.set, answer.original.type)} ${readAs(fields.have, answer.candidate.type)}
    ${judged(answer.ways, fields, on)}
    ${sockets(answer)}
    ${cautions(answer.cautions)}
    ${checks.map(({ title, all }) => everything(all, title))}
    ${answer.original.type === answer.candidate.type ? tubeSheet(answer.original, on) : html`${tubeSheet(answer.original, on)}${tubeSheet(answer.candidate, on)}`}
    <p class="onward">
      <button type="button" class="act" @click=${() => on.take({ set: fields.have, have: fields.set })}>${SAY.exchange}</button>
      <button type="button" class="act" @click=${() => on.take({ have: "" })}>${SAY.goesIn}</button>
    </p>
  `;
};
