// My sets: every sheet with one line of its state, how to begin one, the archive, and the sheets as files.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { quoted } from "./fault.js";
import { switcher } from "./switch.js";
import { sign, trouble, verdict } from "./verdict.js";

/** @typedef {import("../keep_jobs.js").Job} Job */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { sets: WORD } = WORDS;
const SAY = WORD.list;

/** The questions of the place; a sheet and its bring-up belong to the list they are opened from. @param {State} state @param {Verbs} on */
export const tabs = (state, on) => {
  const { screen } = state;
  const open = screen === "job" || screen === "bringup" ? "jobs" : screen;
  return switcher(/** @type {Record<"jobs" | "wants" | "table" | "stock" | "shopping", string>} */ (WORD.tabs), /** @type {any} */ (open), on);
};

/** What the device does not keep, and the way out. @param {State} state @param {Verbs} on */
export const refused = ({ sets }, on) =>
  sets.refused
    ? html`<div class="settled" role="status"><p>${WORD.refused[sets.refused]}</p><button type="button" class="act" @click=${() => on.sets.saveFile()}>${WORD.asFile}</button></div>`
    : nothing;

/** A place to choose a file. @param {string} word @param {string} accept @param {(files: File[]) => void} take @param {boolean} [many] */
export const file = (word, accept, take, many = false) => html`<label class="act file"><input type="file" accept=${accept} ?multiple=${many} @change=${(/** @type {Event} */ event) => {
  const input = /** @type {HTMLInputElement} */ (event.target);
  const files = [...(input.files ?? [])];
  // Emptied, so that the same file can be chosen again after it was corrected.
  input.value = "";
  take(files);
}} /><span>${word}</span></label>`;

/** @param {string} word @param {() => void} press */
const plain = (word, press) => html`<button type="button" class="plain" @click=${press}>${word}</button>`;

/** @param {Job} job @param {State} state @param {Verbs} on */
const row = ({ id, archived, sheet }, state, on) => {
  const { sets } = state;
  const line = sets.lines.get(sheet);
  const bare = !sheet.tubes.length && !sheet.parts.length;
  const name = sheet.name || SAY.unnamed;
  return html`<li class="job-row">
    <button type="button" class="candidate" @click=${() => on.go("job", { id })}>
      <b>${name}</b>
      ${archived ? nothing : line
        ? html`<span class="says">${sign(line.mark, WORDS.marks[line.mark])} ${line.word}</span>
          ${line.totals.length ? html`<span class="also">${line.totals.map(({ what, value }) => `${what}: ${value}`).join("; ")}</span>` : nothing}`
        : html`<span class="says">${bare ? WORD.sheet.waiting : state.core === "failed" ? nothing : SAY.asking}</span>`}
    </button>
    <details class="fold more"><summary aria-label=${SAY.more(name)}>${SAY.moreWord}</summary>
      <p class="actions">
        ${plain(SAY.duplicate, () => on.sets.duplicate(id))} ${plain(SAY.share, () => on.sets.share(id))} ${plain(SAY.saveOne, () => on.sets.saveFile(id))}
        ${plain(archived ? SAY.unarchive : SAY.archive, () => on.sets.archive(id, !archived))}
        ${archived ? plain(SAY.remove, () => on.sets.remove(id)) : nothing}
      </p>
    </details>
  </li>`;
};

/** Where in a file something stands, in the words of the page: "sheet 1, tube 2, found". @param {string} path `sheets[0].tubes[1].state` */
const inWords = (path) => {
  const sections = /** @type {Record<string, string>} */ (SAY.sections);
  const labels = /** @type {Record<string, unknown>} */ (/** @type {unknown} */ (WORD.sheet));
  return path.split(".").map((step) => {
    const [, name, at] = /^(\w+)(?:\[(\d+)\])?/.exec(step) ?? [step, step];
    if (name in sections) return `${sections[name]}${at === undefined ? "" : ` ${Number(at) + 1}`}`;
    return typeof labels[name] === "string" ? labels[name] : name;
  }).join(", ");
};

/** What came of a file. @param {State} state @param {Verbs} on */
const brought = ({ sets: { brought } }, on) =>
  brought
    ? html`<article class="report" aria-labelledby="brought">
        <h3 id="brought">${SAY.brought(brought.name)}</h3>
        <p role="status">${SAY.broughtCount(brought.count)}</p>
        ${brought.faults.length
          ? html`<p>${SAY.faults(brought.faults.length)}</p>
            <ul class="lines">${brought.faults.map(({ field, found, accepted, says }) => html`<li>${quoted(found || accepted ? SAY.fault(inWords(field), found, accepted) : says)}</li>`)}</ul>`
          : nothing}
        <p class="actions"><button type="button" class="act" @click=${on.sets.closeBrought}>${SAY.close}</button></p>
      </article>`
    : nothing;

/** @param {State} state @param {Verbs} on */
export const jobs = (state, on) => {
  const { jobs, ready } = state.sets;
  const active = jobs.filter(({ archived }) => !archived);
  const archive = jobs.filter(({ archived }) => archived);
  const out = trouble(state);
  const act = (/** @type {string} */ word, /** @type {() => void} */ press) => html`<button type="button" class="act" @click=${press}>${word}</button>`;
  return html`
    ${tabs(state, on)}
    <h2>${SAY.title}</h2>
    ${out ? verdict(out, "") : nothing} ${refused(state, on)} ${brought(state, on)}
    ${active.length
      ? html`<ul class="job-rows">${active.map((job) => row(job, state, on))}</ul>`
      : html`<p>${SAY.intro}</p><p role="status">${ready ? SAY.none : WORDS.starting}</p>`}
    <section>
      <h3>${SAY.new}</h3>
      <p class="actions">
        ${act(SAY.empty, () => on.sets.new())} ${act(SAY.paste, () => on.sets.new(true))}
        ${file(SAY.file, ".json,.csv,.txt,application/json,text/plain,text/csv", (files) => on.sets.bring(files), true)}
      </p>
      <p class="aside">${SAY.drop}</p>
    </section>
    ${archive.length
      ? html`<details class="fold"><summary>${SAY.archiveTitle(archive.length)}</summary><p class="aside">${SAY.archiveWhy}</p><ul class="job-rows">${archive.map((job) => row(job, state, on))}</ul></details>`
      : nothing}
    ${jobs.length
      ? html`<section><h3>${SAY.keep}</h3><p>${SAY.kept}</p><p class="actions">${act(SAY.saveAll, () => on.sets.saveFile())}</p></section>`
      : nothing}
  `;
};
