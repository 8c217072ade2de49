// One sheet: the set by name, what is wrong with it, and every line with its own answer. On a phone one below the other, the answer before
// the lines; at a desk the answer stands beside them.

import { html, nothing } from "../vendor/lit-html.js";
import { heatersOf, rectifierOf } from "../job_asks.js";
import { WORDS } from "../words.js";
import { faultVerdict, quoted } from "./fault.js";
import { choice, figure, pair, text } from "./fields.js";
import { cautions } from "./findings.js";
import { refused, tabs } from "./sets_jobs.js";
import { blanks, fold, part, tube } from "./sets_lines.js";
import { supplyBlanks } from "./supply.js";
import { sign, trouble, verdict } from "./verdict.js";

/** @typedef {import("../answers").SheetAnswer} SheetAnswer */
/** @typedef {import("../keep_jobs.js").Job} Job */
/** @typedef {import("../job.js").Written} Written */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { sets: WORD, units: UNITS } = WORDS;
const SAY = WORD.sheet;

/** @param {Event} event */
const stay = (event) => event.preventDefault();

/** @param {string} word @param {() => void} press */
const act = (word, press) => html`<button type="button" class="act" @click=${press}>${word}</button>`;

/** Another window was faster. @param {Job} job @param {State} state @param {Verbs} on */
const behind = ({ id }, { sets }, on) => {
  if (!sets.behind.has(id)) return nothing;
  const there = sets.behind.get(id);
  return html`<article class="report" role="alert">
    <h3>${there ? SAY.behind : SAY.behindGone}</h3>
    <p>${SAY.behindWhy}</p>
    <p class="actions">${act(there ? SAY.theirs : SAY.letGo, on.sets.takeTheirs)} ${act(SAY.keepMine, on.sets.keepMine)}</p>
  </article>`;
};

/** @param {SheetAnswer} answer @param {Verbs} on */
const troubles = ({ trouble }, on) =>
  trouble.length
    ? html`<section><h3>${SAY.trouble}</h3>
        <ol class="troubles">${trouble.map(({ danger, mark, section, at, place, says }) => html`<li class="danger-${danger}">
          <button type="button" @click=${() => on.sets.show(section, at)}>
            ${sign(mark, WORDS.marks[mark])} <span><b>${place}</b> <i>${SAY.dangers[danger]}</i><span class="says">${quoted(says)}</span></span>
          </button>
        </li>`)}</ol></section>`
    : nothing;

/** @param {SheetAnswer} answer */
const totals = ({ totals }) =>
  totals.length
    ? html`<section><h3>${SAY.totals}</h3><dl class="facts totals">${totals.map(({ what, value, mark }) => html`<div><dt>${sign(mark, WORDS.marks[mark])} ${what}</dt><dd>${value}</dd></div>`)}</dl></section>`
    : nothing;

/** @param {Job} job @param {State} state @param {Verbs} on */
const answer = ({ id, archived, sheet }, state, on) => {
  const out = trouble(state);
  const [main] = state.answers;
  const { faults } = state.sets;
  const { list: LIST } = WORD;
  const done = main?.answer === "sheet" ? main : null;
  return html`
    ${out ? verdict(out, "")
      : main?.answer === "error" ? verdict(faultVerdict(main, "job"), "")
      : verdict(done?.verdict ?? null, state.core === "starting" ? WORDS.starting : SAY.waiting)}
    ${faults.length ? html`<p class="fault">${SAY.leftOut(faults.length)}</p>` : nothing}
    ${done ? html`${troubles(done, on)} ${totals(done)}` : nothing}
    <section class="next">${done ? html`<h3>${SAY.next}</h3><p class="onward">${act(SAY.shopping, () => on.go("shopping", { id }))} ${act(SAY.bringUp, () => on.go("bringup", { id }))}</p>` : nothing}
      <details class="fold more"><summary>${LIST.moreWord}</summary>
        <p class="onward">
          ${act(LIST.share, () => on.sets.share(id))} ${act(LIST.saveOne, () => on.sets.saveFile(id))} ${act(LIST.duplicate, () => on.sets.duplicate(id))}
          ${act(archived ? LIST.unarchive : LIST.archive, () => on.sets.archive(id, !archived))}
          ${sheet.tubes.length ? act(SAY.ask.heaters, () => on.go("heaters", heatersOf(sheet))) : nothing}
        </p>
      </details>
    </section>
    ${done ? cautions(done.cautions) : nothing}`;
};

/** @param {Written} sheet @param {State} state @param {Verbs} on */
const facts = (sheet, state, on) => {
  const blank = blanks(sheet, state, on);
  const { heaters } = sheet;
  return html`
    ${choice("heaters", SAY.heaters, SAY.heaterWays, heaters, (value) => on.choose("heaters", value))}
    ${pair(figure(blank("line_v", SAY.line_v, { unit: UNITS.v })), figure(blank("designed_v", SAY.designed_v, { unit: UNITS.v })))}
    ${choice("line_hz", SAY.line_hz, SAY.hzWays, sheet.line_hz, (value) => on.choose("line_hz", value))}
    ${heaters === "parallel" || sheet.winding_v || sheet.winding_a
      ? pair(figure(blank("winding_v", SAY.winding_v, { unit: UNITS.v })), figure(blank("winding_a", SAY.winding_a, { unit: UNITS.a })))
      : nothing}
    ${text(blank("note", SAY.note, { wide: true }))}`;
};

/** @param {Written} sheet @param {boolean[]} tubes @param {State} state @param {Verbs} on */
const supply = (sheet, tubes, state, on) => {
  const say = /** @type {Record<string, string>} */ (/** @type {unknown} */ (WORDS.rectifier));
  const blank = blanks(sheet, state, on);
  const named = (/** @type {string} */ name) => `supply.${name}`;
  const { first, measured, more } = supplyBlanks(sheet.supply, (name, unit = "", placeholder = "") => blank(named(name), say[name], { unit, placeholder }), named, on);
  return html`<p class="help">${SAY.supplyWhy}</p>${first} ${measured}
    <details class="further"><summary>${WORDS.rectifier.tell}</summary><p class="help">${WORDS.rectifier.tellWhy}</p><div class="grid">${more}</div></details>
    <p class="actions">${act(SAY.ask.rectifier, () => on.go("rectifier", rectifierOf(sheet, tubes)))}</p>`;
};

/** Lines pasted or typed at once: what was understood of them before they are taken in. @param {Written} sheet @param {State} state @param {Verbs} on */
const several = (sheet, state, on) => {
  const { preview } = state.sets;
  const { states, doneWays } = SAY;
  return html`
    ${text({ ...blanks(sheet, state, on)("lines", SAY.linesLabel), wide: true, many: true, placeholder: SAY.linesPlaceholder, help: SAY.linesWhy })}
    ${preview
      ? html`<section class="report"><h4>${SAY.understood}</h4><p role="status">${quoted(preview.verdict.says || preview.verdict.word)}</p>
          ${preview.doubtful.length ? html`<h4>${SAY.doubtful}</h4><ul class="lines">${preview.doubtful.map((says) => html`<li>${quoted(says)}</li>`)}</ul>` : nothing}
          <p class="actions"><button type="button" class="act do" @click=${on.sets.takeLines}>${SAY.take}</button></p>
          <ul class="understood">
            ${preview.tubes.map(({ place, type, state, note }) => html`<li><i>${place}</i> <b>${type}</b> ${state ? states[state] : ""} <i>${note}</i></li>`)}
            ${preview.parts.map(({ reference, marking, role, measured, done, note }) => html`<li>
              <i>${reference}</i> <b>${marking}</b> ${role ? { ...WORDS.resistor.roles, ...WORDS.capacitor.roles }[role] : ""}
              ${measured ? `${SAY.measured} ${measured}` : ""} ${done ? doneWays.yes : ""} <i>${note}</i></li>`)}
          </ul></section>`
      : nothing}`;
};

/** @param {Job} job @param {State} state @param {Verbs} on */
const lines = ({ sheet }, state, on) => {
  const [main] = state.answers;
  const done = main?.answer === "sheet" ? main : null;
  const { places } = state.sets;
  // Answers count the lines that were asked; the sheet may have empty ones between.
  const tubeAnswers = new Map(done?.tubes.map((one) => [places.tubes[one.at], one]));
  const partAnswers = new Map(done?.parts.map((one) => [places.parts[one.at], one]));
  const tubes = sheet.tubes.map((_, at) => tubeAnswers.get(at)?.tube ?? true);
  const told = [/** @type {Record<string, string>} */ (SAY.heaterWays)[sheet.heaters], sheet.line_v && `${sheet.line_v} ${UNITS.v}`].filter((word) => word && word !== SAY.heaterWays[""]);
  const { supply: blanksOf } = sheet;
  const given = [WORDS.rectifier.ways[/** @type {"tube"} */ (blanksOf.original ?? "")], blanksOf.first_uf && `${blanksOf.first_uf} ${UNITS.uf}`, blanksOf.load_ma && `${blanksOf.load_ma} ${UNITS.ma}`]
    .filter((word) => word && word !== WORDS.rectifier.ways[""]);
  const summed = (/** @type {string} */ word, /** @type {(string | undefined)[]} */ inside) => html`<span>${word}${inside.length ? html`: <span class="aside">${inside.join(", ")}</span>` : nothing}</span>`;
  const paste = html`<section>${fold("lines", SAY.lines, () => several(sheet, state, on), state, on)}</section>`;
  const bare = !sheet.tubes.length && !sheet.parts.length;
  return html`
    ${bare ? paste : nothing}
    <section>${fold("facts", summed(SAY.facts, told), () => facts(sheet, state, on), state, on)}</section>
    <section><h3 tabindex="-1" data-lines="tubes">${SAY.tubes}</h3>
      ${sheet.tubes.length ? html`<ol class="job-lines">${sheet.tubes.map((_, at) => tube(sheet, at, tubeAnswers.get(at), tubes, state, on))}</ol>` : html`<p class="help">${SAY.tubesWhy}</p>`}
      <p class="actions">${act(SAY.addTube, () => on.sets.insert("tubes"))}</p>
    </section>
    <section>${fold("supply", summed(SAY.supply, given), () => supply(sheet, tubes, state, on), state, on)}</section>
    <section><h3 tabindex="-1" data-lines="parts">${SAY.parts}</h3>
      <ol class="job-lines">${sheet.parts.map((_, at) => part(sheet, at, partAnswers.get(at), state, on))}</ol>
      <p class="actions">${act(SAY.addPart, () => on.sets.insert("parts"))}</p>
    </section>
    ${bare ? nothing : paste}`;
};

/** @param {State} state @param {Verbs} on */
export const job = (state, on) => {
  const { sets, core } = state;
  const found = sets.jobs.find(({ id }) => id === state.fields.job.id);
  if (!found) {
    return html`<div class="job-head">${tabs(state, on)}
      <p role="status">${sets.ready ? SAY.gone : WORDS.starting}</p>
      ${sets.ready ? html`<p>${act(SAY.toList, () => on.go("jobs"))}</p>` : nothing}</div>`;
  }
  const { sheet } = found;
  const step = (/** @type {string} */ word, /** @type {boolean} */ can, /** @type {() => void} */ press) =>
    html`<button type="button" class="plain" ?disabled=${!can} @click=${press}>${word}</button>`;
  const keeps = core === "failed" ? "" : sets.behind.has(found.id) ? "" : sets.refused ? SAY.notKept : sets.saving ? SAY.keeping : SAY.kept;
  return html`
    <form class="job-head question" aria-label=${SAY.which} autocomplete="off" @submit=${stay}>
      ${tabs(state, on)}
      ${text(blanks(sheet, state, on)("name", SAY.name, { placeholder: SAY.namePlaceholder }))}
      <p class="steps"><span class="aside">${keeps}</span>${step(WORD.undo, sets.past, on.sets.undo)}${step(WORD.redo, sets.future, on.sets.redo)}
        ${sheet.tubes.length || sheet.parts.length ? html`<button type="button" class="plain to-lines" @click=${on.sets.toLines}>${SAY.toLines}</button>` : nothing}</p>
      ${behind(found, state, on)} ${refused(state, on)}
    </form>
    <section class="answer" aria-label=${WORDS.answer} tabindex="-1" data-answer>${answer(found, state, on)}</section>
    <form class="job-sheet question" aria-label=${WORDS.question} autocomplete="off" @submit=${(/** @type {Event} */ event) => (stay(event), on.enter())}>${lines(found, state, on)}</form>
  `;
};
