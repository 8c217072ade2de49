// Two questions share a place: which one is open.

import { html } from "../vendor/lit-html.js";

/**
 * @template {import("../sheets.js").Sheet} S
 * @param {Record<S, string>} words
 * @param {S} open
 * @param {import("../stand-in.js").Verbs} on
 */
export const switcher = (words, open, on) => html`<div class="switch">
  ${/** @type {S[]} */ (Object.keys(words)).map(
    (sheet) => html`<button type="button" aria-current=${sheet === open ? "true" : "false"} @click=${() => on.go(sheet)}>${words[sheet]}</button>`,
  )}
</div>`;
