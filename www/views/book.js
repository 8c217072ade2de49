// The parts book: one tube to correct or add, the user's rows, many rows at once from a file, and everything as files again.

import { html, nothing } from "../vendor/lit-html.js";
import { rowsOf } from "../csv.js";
import { WORDS } from "../words.js";
import { type } from "./fields.js";
import { incoming } from "./incoming.js";
import { beside, differing } from "./row.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../state.js").Item} Item */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { book: SAY } = WORDS;

/** @param {Item} item @param {Verbs} on */
const own = (item, on) => {
  const { table, name, says, row } = item;
  const differ = row ? rowsOf(row, {}).flatMap(differing) : [];
  const button = (/** @type {string} */ word, /** @type {() => void} */ press) =>
    html`<button type="button" class="plain" aria-label="${word} ${name}" @click=${press}>${word}</button>`;
  return html`<li>
    <p><b>${name}</b> ${SAY.which[table]} ${says}</p>
    ${differ.length
      ? html`<details class="fold"><summary>${SAY.differs(differ.length)}</summary>${beside(differ, WORDS.row.head)}</details>`
      : nothing}
    <p class="actions">
      ${table === "tubes" || table === "names" ? button(SAY.open, () => on.own(table === "tubes" ? name : says)) : nothing}
      ${table === "tubes" ? button(SAY.edit, () => on.go("row", { type: name })) : nothing}
      ${button(SAY.remove, () => on.remove(item))}
    </p>
  </li>`;
};

/** @param {State} state @param {Verbs} on */
export const book = (state, on) => {
  const fields = state.fields.book;
  const { tubes, names, parts, shown, more } = state.own;
  const all = tubes + names + parts;
  const chosen = (/** @type {Event} */ event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    const files = [...(input.files ?? [])];
    // Emptied, so that the same file can be chosen again after it was corrected.
    input.value = "";
    on.bring(files);
  };
  const pasted = (/** @type {HTMLTextAreaElement} */ area, /** @type {string} */ text) => {
    area.value = "";
    on.bring([text]);
  };
  const open = (/** @type {Event} */ event) => {
    event.preventDefault();
    if (fields.find?.trim()) on.go("row", { type: fields.find.trim() });
  };
  const save = (/** @type {[string, string]} */ [table, words]) => html`<button type="button" class="act" @click=${() => on.save(table)}>${words}</button>`;
  return html`
    <h2>${SAY.title}</h2>
    ${incoming(state, on)}
    <p>${SAY.intro}</p>
    <form class="one" autocomplete="off" @submit=${open}>
      ${type({ name: "find", label: SAY.find, fields, on, placeholder: SAY.findPlaceholder })}
      <button class="act">${SAY.row}</button>
    </form>
    <section>
      <h3>${SAY.yours}</h3>
      <p role="status">${all ? SAY.count(tubes, names, parts) : SAY.none} ${all && !shown.length ? SAY.nothingFits : ""}</p>
      <ul class="own">${shown.map((item) => own(item, on))}</ul>
      ${more ? html`<p class="aside">${SAY.more(more)}</p>` : nothing}
    </section>
    <section>
      <h3>${SAY.bring}</h3>
      <p>${SAY.bringHow}</p>
      <p class="actions"><label class="act file"><input type="file" accept=".csv,.tsv,.txt,text/csv" multiple @change=${chosen} /><span>${SAY.choose}</span></label></p>
      <p class="aside">${SAY.drop}</p>
      <form @submit=${(/** @type {SubmitEvent} */ event) => {
        event.preventDefault();
        const area = /** @type {HTMLFormElement} */ (event.target).querySelector("textarea");
        if (area?.value.trim()) pasted(area, area.value);
      }}>
        <div class="blank wide">
          <label for="paste">${SAY.paste}</label>
          <span class="line"><textarea id="paste" rows="2" spellcheck="false" autocapitalize="off" @paste=${(/** @type {ClipboardEvent} */ event) => {
            // A large table is never drawn in the blank, it is looked at at once.
            const text = event.clipboardData?.getData("text") ?? "";
            if (!text.includes("\n")) return;
            event.preventDefault();
            pasted(/** @type {HTMLTextAreaElement} */ (event.target), text);
          }}></textarea></span>
        </div>
        <button class="act">${SAY.pasteLook}</button>
      </form>
    </section>
    <section>
      <h3>${SAY.save}</h3>
      <p class="actions">${Object.entries(SAY.saves).map(save)}</p>
      <p class="aside">${SAY.saveWhy} ${state.storage === "on" ? SAY.kept : WORDS.notKept[state.storage]}</p>
    </section>
  `;
};
