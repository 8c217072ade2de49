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

/** @param {Verbs} on */
export const addToBook = (on) =>
  html`<p><button type="button" class="act" @click=${() => on.go("book")}>${WORDS.swap.addToBook}</button></p>`;
