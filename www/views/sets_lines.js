// The lines of a sheet: each tube and part with what becomes of it; unfolded, its blanks, its own answer, and the way to the full question.

import { html, nothing } from "../vendor/lit-html.js";
import { called, textAt } from "../job.js";
import { capacitorOf, resistorOf, swapOf } from "../job_asks.js";
import { WORDS } from "../words.js";
import { MARKS } from "./candidates.js";
import { quoted } from "./fault.js";
import { choice, pick, text, type } from "./fields.js";
import { sign } from "./verdict.js";

/** @typedef {import("../answers").SheetAnswer} SheetAnswer */
/** @typedef {import("../answers").SheetTubeAnswer} TubeAnswer */
/** @typedef {import("../answers").SheetPartAnswer} PartAnswer */
/** @typedef {import("../job.js").Written} Written */
/** @typedef {import("../job.js").TubeLine} TubeLine */
/** @typedef {import("../job.js").PartLine} PartLine */
/** @typedef {import("../job.js").Section} Section */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */
/** @typedef {import("./fields.js").Blank} Blank */

const { sheet: SAY } = WORDS.sets;

/** The blanks of a sheet, named by their path. @param {Written} sheet @param {State} state @param {Verbs} on */
export const blanks = (sheet, { sets }, on) => (/** @type {string} */ name, /** @type {string} */ label, /** @type {Partial<Blank>} */ more = {}) => {
  const wrong = sets.faults.find(({ field }) => field === name);
  return { name, label, fields: { [name]: textAt(sheet, name) }, on, fault: wrong ? { field: name, says: SAY.fault(wrong.found, wrong.accepted) } : null, ...more };
};

/** Something to unfold whose inside is made only then. @param {string} key @param {unknown} title @param {() => unknown} inside @param {State} state @param {Verbs} on */
export const fold = (key, title, inside, { sets }, on) => {
  const open = sets.open.has(key);
  return html`<details class="fold" .open=${open} @toggle=${(/** @type {Event} */ event) => on.sets.fold(key, /** @type {HTMLDetailsElement} */ (event.currentTarget).open)}>
    <summary data-fold=${key}>${title}</summary>
    ${open ? inside() : nothing}
  </details>`;
};

/** Where a line stands and whether it stays. @param {Section} section @param {number} at @param {number} count @param {string} name @param {Verbs} on */
const order = (section, at, count, name, on) => {
  const button = (/** @type {string} */ word, /** @type {string} */ move, /** @type {boolean} */ off, /** @type {() => void} */ press) =>
    html`<button type="button" class="plain" data-move="${section}.${at}.${move}" aria-label=${SAY.of(word, name)} ?disabled=${off} @click=${press}>${word}</button>`;
  return html`<p class="actions order">
    ${button(SAY.up, "up", at === 0, () => on.sets.move(section, at, -1))} ${button(SAY.down, "down", at === count - 1, () => on.sets.move(section, at, 1))}
    ${button(SAY.insert, "insert", false, () => on.sets.insert(section, at))} ${button(SAY.drop, "drop", false, () => on.sets.drop(section, at))}
  </p>`;
};

/** @param {string} word @param {() => void} press */
const full = (word, press) => html`<button type="button" class="act" @click=${press}>${word}</button>`;

/** The line folded: what it is, and what becomes of it. @param {unknown} what @param {import("../answers").Mark | null} mark @param {string} word */
const title = (what, mark, word) => html`<span class="job-title"><span class="what">${what}</span>
  ${word ? html`<span class="word ${mark ?? ""}">${mark ? sign(mark, WORDS.marks[mark]) : nothing} ${word}</span>` : nothing}</span>`;

/** What the sheet says of a tube. @param {TubeAnswer} answer @param {number} at @param {(have: string) => void} swap @param {Verbs} on */
const tubeAnswer = ({ says, markings, stand_ins, fitted, type: own }, at, swap, on) => html`
  <p>${quoted(says)}</p>
  ${fitted ? html`<p>${sign(MARKS[fitted.grade], WORDS.marks[MARKS[fitted.grade]])} <b>${fitted.type}</b>: ${fitted.says || fitted.word}</p>
    <p class="actions"><button type="button" class="plain" @click=${() => on.choose(`tubes.${at}.fitted`, "")}>${SAY.unfit}</button></p>` : nothing}
  ${markings.filter((one) => one !== own).length ? html`<p>${SAY.markings} <b>${markings.filter((one) => one !== own).join(", ")}</b></p>` : nothing}
  ${stand_ins.length
    ? html`<h4>${SAY.standIns}</h4>
      <ul class="candidates">${stand_ins.map((one) => html`<li>
        <button type="button" class="candidate" @click=${() => swap(one.type)}>
          <b>${one.type}</b>${one.found_today ? html`<i>${WORDS.swap.foundWays[one.found_today] ?? one.found_today}</i>` : nothing}
          <span class="says">${sign(MARKS[one.grade], WORDS.marks[MARKS[one.grade]])} ${one.word} ${one.says === one.word ? "" : one.says}</span>
        </button>
        ${fitted?.type === one.type ? nothing : html`<button type="button" class="plain" @click=${() => on.choose(`tubes.${at}.fitted`, one.type)}>${SAY.fit(one.type)}</button>`}
      </li>`)}</ul>`
    : nothing}`;

/** @param {Written} sheet @param {number} at @param {TubeAnswer | undefined} answer @param {boolean[]} tubes which lines are tubes @param {State} state @param {Verbs} on */
export const tube = (sheet, at, answer, tubes, state, on) => {
  const line = sheet.tubes[at];
  const blank = blanks(sheet, state, on);
  const name = (/** @type {string} */ field) => `tubes.${at}.${field}`;
  const what = html`${line.place ? html`<i>${line.place}</i> ` : nothing}<b>${line.type || SAY.nothingTyped}</b>${line.fitted ? html` <span aria-hidden="true">→</span> <b>${line.fitted}</b>` : nothing}
    ${line.state ? html` <i>${/** @type {Record<string, string>} */ (SAY.states)[line.state]}</i>` : nothing}`;
  const swap = (/** @type {string} */ have) => on.go("swap", swapOf(sheet, at, tubes, have));
  return html`<li class="job-line">${fold(line.key, title(what, answer?.mark ?? null, answer?.word ?? ""), () => html`
    <div class="pair">${text(blank(name("place"), SAY.place, { placeholder: SAY.placePlaceholder }))} ${type(blank(name("type"), SAY.type))}</div>
    ${choice(name("state"), SAY.state, SAY.states, line.state, (value) => on.choose(name("state"), value))}
    <div class="pair">${type(blank(name("fitted"), SAY.fitted, { placeholder: SAY.fittedPlaceholder }))} ${text(blank(name("note"), SAY.note))}</div>
    ${answer ? html`<div class="own-answer">${tubeAnswer(answer, at, swap, on)}</div>
      ${answer.tube ? html`<p class="actions">
        ${line.fitted ? full(SAY.ask.swap, () => swap(line.fitted.trim())) : nothing} ${full(SAY.ask.candidates, () => swap(""))}
      </p>` : nothing}` : nothing}
    ${order("tubes", at, sheet.tubes.length, called(line), on)}`, state, on)}</li>`;
};

/** Roles a part can have, by the letter before its number. @param {PartLine} line */
const roles = ({ reference, role }) => {
  const { capacitor: { roles: C }, resistor: { roles: R } } = WORDS;
  const all = { ...R, ...C };
  const fits = /^\s*r/i.test(reference) ? R : /^\s*c/i.test(reference) ? C : all;
  return role in fits ? fits : all;
};

/** Whether a part can only be one of the two. @param {PartLine} line */
const kind = ({ reference, role }) => {
  const { capacitor: { roles: C }, resistor: { roles: R } } = WORDS;
  if (/^\s*r/i.test(reference) || (role in R && !(role in C))) return "resistor";
  return /^\s*c/i.test(reference) || (role in C && !(role in R)) ? "capacitor" : "";
};

/** @param {Written} sheet @param {number} at @param {PartAnswer | undefined} answer @param {State} state @param {Verbs} on */
export const part = (sheet, at, answer, state, on) => {
  const line = sheet.parts[at];
  const blank = blanks(sheet, state, on);
  const name = (/** @type {string} */ field) => `parts.${at}.${field}`;
  const what = html`${line.reference ? html`<i>${line.reference}</i> ` : nothing}<b>${line.marking || SAY.nothingTyped}</b>${line.done ? html` <i>${SAY.doneWays.yes}</i>` : nothing}`;
  const is = kind(line);
  const word = answer ? (answer.buy.length ? answer.buy.join("; ") : WORDS.list.states[answer.state]) : "";
  return html`<li class="job-line">${fold(line.key, title(what, answer?.mark ?? null, word), () => html`
    <div class="pair">${text(blank(name("reference"), SAY.reference, { placeholder: SAY.referencePlaceholder }))} ${text(blank(name("measured"), SAY.measured))}</div>
    ${text(blank(name("marking"), SAY.marking))}
    ${pick(name("role"), SAY.role, roles(line), line.role, (value) => on.choose(name("role"), value))}
    ${choice(name("done"), SAY.done, SAY.doneWays, line.done, (value) => on.choose(name("done"), value))}
    ${text(blank(name("note"), SAY.note))}
    ${answer ? html`<div class="own-answer">
      ${answer.reads ? html`<p>${SAY.reads} <b>${answer.reads}</b></p>` : nothing}
      ${answer.buy.map((buy) => html`<p>${SAY.buy} <b>${buy}</b></p>`)}
      ${answer.says ? html`<p>${quoted(answer.says)}</p>` : nothing}
    </div>` : nothing}
    ${line.marking.trim() ? html`<p class="actions">
      ${is === "resistor" ? nothing : full(SAY.ask.capacitor, () => on.go("capacitor", capacitorOf(sheet, line)))}
      ${is === "capacitor" ? nothing : full(SAY.ask.resistor, () => on.go("resistor", resistorOf(line)))}
    </p>` : nothing}
    ${order("parts", at, sheet.parts.length, called(line), on)}`, state, on)}</li>`;
};
