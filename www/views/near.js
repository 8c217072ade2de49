// A type that is not in the book is no dead end: the nearest names to tap, and the way to put it into the book.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";

/** @typedef {import("../stand-in.js").Verbs} Verbs */

/** Names to tap. @param {string[]} names @param {(name: string) => void} take @param {string} [title] */
export const names = (names, take, title = WORDS.swap.didYouMean) =>
  names.length
    ? html`<section class="near">
        <h3>${title}</h3>
        <p class="chips">${names.map((name) => html`<button type="button" @click=${() => take(name)}>${name}</button>`)}</p>
      </section>`
    : nothing;

/** A tube found under another name than the one typed. @param {string | undefined} typed @param {string} type */
export const readAs = (typed, type) => {
  const plain = (/** @type {string} */ text) => text.toUpperCase().replace(/[^A-Z0-9]/g, "");
  return typed && plain(typed) !== plain(type) ? html`<p class="aside">${WORDS.swap.readAs(typed.trim(), type)}</p>` : nothing;
};

/** Types of a list that the book lacks: a tap leads to what each could be. @param {string[]} all @param {Verbs} on */
export const missed = (all, on) => names(all, (text) => on.go("search", { text }), WORDS.swap.notInBook);

/** What else can be done about a type that is not found. @param {string | undefined} type as it was typed @param {Verbs} on */
export const lost = (type, on) => {
  const name = (type ?? "").trim().toUpperCase();
  return html`<p class="actions">
    <button type="button" class="act" @click=${() => on.go("search", { text: name })}>${WORDS.search.offer(name)}</button>
    <button type="button" class="act" @click=${() => on.go("row", { type: name })}>${WORDS.swap.addToBook}</button>
  </p>`;
};
