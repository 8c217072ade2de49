// A swap judged: verdict, reasons, changes, sockets, cautions; with the supply unknown, both ways side by side.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { list } from "../questions.js";
import { cautions, changes, checks, measure, reasons } from "./findings.js";
import { ladder } from "./heaters.js";
import { readAs } from "./near.js";
import { onward } from "./onward.js";
import { legend, marksOf, pinTable, socket, socketPair } from "./socket.js";
import { tubeSheet } from "./tube_sheet.js";
import { sign, verdict } from "./verdict.js";

/** @typedef {import("../answers").SwapAnswer} SwapAnswer */
/** @typedef {import("../answers").Way} Way */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */
/** @typedef {import("../sheets.js").Fields} Fields */

const { swap: SAY } = WORDS;

/** Facts of the set that settle a figure the book lacks of the original, by its column: the blanks that take them. @type {Record<string, (keyof typeof SAY)[]>} */
const SETTLED_BY = {
  plate_max_v: ["plate_v"],
  screen_max_v: ["screen_v"],
  plate_max_w: ["plate_v", "plate_ma"],
  heater_cathode_max_v: ["others"],
};

/**
 * The facts that would settle it, offered there and then: what the set itself tells where that is enough, else the very cell of the book.
 * @param {SwapAnswer} answer @param {Way} way @param {Verbs} on
 */
const missing = ({ candidate }, way, on) => {
  if (way.grade !== "unknown") return nothing;
  /** For each type the first of its cells that is empty. @type {Map<string, string>} */
  const cells = new Map();
  const facts = way.missing.map(({ says, column, types }) => {
    for (const type of types) if (!cells.has(type)) cells.set(type, `0.${column}`);
    // What the candidate stands the set cannot tell.
    const told = types.includes(candidate.type) ? [] : SETTLED_BY[column] ?? [];
    const open = (/** @type {string} */ name) => () => {
      if (name === "others") on.choose("heaters", "series");
      on.tell(true, name);
    };
    const blanks = told.filter((name) => name !== "others" || way.supply === "series");
    return html`<li>${says}
      ${blanks.length ? html`<p class="actions">${blanks.map((name) => html`<button type="button" class="act" @click=${open(name)}>${SAY.inSet(/** @type {string} */ (SAY[name]))}</button>`)}</p>` : nothing}
    </li>`;
  });
  return html`<section>
    <h3>${SAY.missing}</h3>
    <ul class="lines">${facts}</ul>
    <p class="actions">
      ${[...cells].map(([type, cell]) => html`<button type="button" class="act" @click=${() => (on.go("row", { type }), on.tell(true, cell))}>${SAY.fillRow(type)}</button>`)}
    </p>
  </section>`;
};

/** @param {SwapAnswer} answer @param {Way} way @param {State} state @param {Verbs} on */
const body = (answer, way, state, on) => html`
  ${reasons(way.reasons, undefined, new Map(answer.why))} ${missing(answer, way, on)}
  ${way.advice ? html`<p class="advice">${way.advice}</p>` : nothing}
  ${changes(way.changes, undefined, way.grade === "after_changes" ? way.work : "")} ${string(answer, way, state, on)} ${measure(way.measure)}`;

/** The heater string with the candidate in it. @param {SwapAnswer} answer @param {Way} way @param {State} state @param {Verbs} on */
const string = ({ candidate }, { string }, { fields: { swap } }, on) =>
  string.length ? ladder(string, swap.line_v || SAY.line, swap.dropper_ohm, on, { facts: html`<p class="aside">${SAY.stringWith(candidate.type)}</p>`, asked: string.length - 1 - (Number(swap.chassis_side) || 0) }) : nothing;

/** What both ways say alike is said once. @param {Way[]} ways */
const alike = (ways) => {
  const said = ways.map(({ verdict, reasons, changes }) => JSON.stringify([verdict, reasons, changes]));
  return said.every((one) => one === said[0]);
};

/** @param {SwapAnswer} answer @param {State} state @param {Verbs} on */
const judged = (answer, state, on) => {
  const { ways } = answer;
  if (ways.length === 1) return body(answer, ways[0], state, on);
  if (alike(ways)) {
    const whole = { ...ways[0], measure: [...new Set(ways.flatMap((way) => way.measure))] };
    return html`<p class="aside">${SAY.eitherWay(ways.map((way) => way.supply_words))}.</p>${body(answer, whole, state, on)}`;
  }
  return html`<div class="both">
    ${ways.map(
      (way) => html`<article class="way">
        <header class=${way.verdict.mark}>${sign(way.verdict.mark)}<div><h3>${capital(way.supply_words)}</h3><p>${way.verdict.word}</p></div></header>
        ${body(answer, way, state, on)}
      </article>`,
    )}
  </div>`;
};

/** @param {string} text */
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/** Whether a wire sits on a pin the original leaves empty only a look can tell: what was seen is one tap. @param {SwapAnswer} answer @param {Fields} fields @param {Verbs} on */
const looked = ({ original, danger_pins }, fields, on) => {
  const empty = danger_pins.filter((name) => original.pins.some(({ pin, part }) => pin === name && part === "empty"));
  if (!empty.length || fields.ties) return nothing;
  return html`<p class="actions">
    <button type="button" class="act" @click=${() => on.take({ ties: "none" })}>${SAY.lookedNone(empty)}</button>
    <button type="button" class="act" @click=${() => (on.take({ ties: "some", tie_pins: empty.join(" ") }), on.tell(true, "tie_pins"))}>${SAY.lookedSome}</button>
  </p>`;
};

/** @param {SwapAnswer} answer */
const sockets = ({ original, candidate, ways, danger_pins }) => {
  const moves = ways.map((way) => way.changes.flatMap((change) => change.moves ?? [])).find((all) => all.length) ?? [];
  const alikeBases = original.base === candidate.base;
  const [from, to] = marksOf(moves, danger_pins, alikeBases);
  /** @type {[string, string]} */
  const titles = [SAY.setWants(original.type), SAY.candidate(candidate.type)];
  return html`<section>
    <h3>${SAY.sockets}</h3>
    ${danger_pins.length ? html`<p class="danger">${sign("no")} ${WORDS.socket.dangerPins(danger_pins)}</p>` : nothing}
    ${alikeBases || !original.pins.length || !candidate.pins.length
      ? html`<div class="sockets">${socket(original, titles[0], from)} ${socket(candidate, titles[1], to)}</div>`
      : socketPair([original, candidate], titles, [from, to])}
    ${legend([original, candidate], [from, to])}
    ${pinTable([{ tube: original, marks: from }, { tube: candidate, marks: to }])}
  </section>`;
};

/** The string with the candidate in it, as a question of its own. @param {SwapAnswer} answer @param {Fields} fields @returns {Fields} */
const stringOf = ({ candidate }, { others, chassis_side, line_v = "", dropper_ohm = "" }) => {
  const tubes = list(others);
  tubes.splice(Math.max(0, tubes.length - (Number(chassis_side) || 0)), 0, candidate.type);
  return { tubes: tubes.join(" "), line_v, dropper_ohm };
};

/** @param {SwapAnswer} answer @param {Fields} fields @param {State} state @param {Verbs} on */
export const swap = (answer, fields, state, on) => {
  const { original, candidate, ways } = answer;
  const { heaters = "", line_v = "" } = fields;
  const why = new Map(answer.why);
  const same = original.type === candidate.type;
  return html`
    ${verdict(answer.verdict, "")} ${looked(answer, fields, on)}
    ${readAs(fields.set, original.type)} ${readAs(fields.have, candidate.type)}
    ${judged(answer, state, on)}
    ${sockets(answer)}
    ${cautions(answer.cautions)}
    ${onward([
      [SAY.ownPage(candidate.type), () => on.own(candidate.type)],
      ...(same ? [] : /** @type {[string, () => void][]} */ ([[SAY.exchange, () => on.go("swap", { set: fields.have, have: fields.set, heaters, line_v })]])),
      ...(ways.some(({ supply }) => supply === "series") ? /** @type {[string, () => void][]} */ ([[SAY.itsString, () => on.go("heaters", stringOf(answer, fields))]]) : []),
      [SAY.itsRow, () => on.go("row", { type: candidate.type })],
      [SAY.servesFor(candidate.type), () => on.go("serves", { have: candidate.type, heaters })],
      [SAY.goesInFor(original.type), () => on.take({ have: "" })],
    ])}
    ${ways.map((way) => checks(way.findings, ways.length === 1 ? "" : way.supply_words, why))}
    ${tubeSheet(original, on)} ${same ? nothing : tubeSheet(candidate, on)}
  `;
};
