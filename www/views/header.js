// The top line: the name, and behind one button the theme, the wording, the parts book, the demonstration set and the cautions.

import { html, nothing, svg } from "../vendor/lit-html.js";
import { spoken } from "../wording.js";
import { EXAMPLES, WORDS } from "../words.js";
import { choice } from "./fields.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const SIGN = svg`<circle cx="16" cy="16" r="13" /><path d="M13.5 29v-3h5v3" />
  ${[45, 90, 135, 180, 225, 270].map((angle) => {
    const turn = (angle * Math.PI) / 180;
    return svg`<circle class="pin" cx=${16 - 8 * Math.sin(turn)} cy=${16 + 8 * Math.cos(turn)} r="1.8" />`;
  })}
  <circle class="other" cx=${16 + 8 * Math.sin(Math.PI / 4)} cy=${16 + 8 * Math.cos(Math.PI / 4)} r="3" />`;

/** @param {State} state @param {Verbs} on */
const menu = (state, on) => html`<div class="menu" part="menu" id="menu" data-menu>
  ${choice("theme", WORDS.menu.theme, WORDS.menu.themes, state.theme, (theme) => on.theme(/** @type {State["theme"]} */ (theme)))}
  ${state.givenWords ? nothing : choice("words", WORDS.menu.words, WORDS.menu.wordings, spoken(), (words) => on.words(words))}
  <button @click=${() => on.go("book")}>${WORDS.menu.book}</button>
  <button @click=${() => on.go("about")}>${WORDS.menu.about}</button>
  <h2>${WORDS.menu.kitchen}</h2>
  ${EXAMPLES.kitchen.map(
    ({ says, screen, fields }) =>
      html`<button class="small" @click=${() => on.go(/** @type {import("../address.js").Screen} */ (screen), clean(fields))}>${says}</button>`,
  )}
</div>`;

/** @param {Record<string, string | undefined>} fields @returns {import("../sheets.js").Fields} */
export const clean = (fields) => Object.fromEntries(Object.entries(fields).map(([name, text]) => [name, text ?? ""]));

/** @param {State} state @param {Verbs} on */
export const header = (state, on) => html`<header class="head" part="header" role=${state.embedded ? "none" : nothing}>
  <h1><svg viewBox="0 0 32 32" aria-hidden="true">${SIGN}</svg>${WORDS.name}</h1>
  <button class="menu-button" data-menu-button aria-expanded=${state.menu} aria-controls="menu" @click=${() => on.menu(!state.menu)}>
    <svg viewBox="0 0 24 24" aria-hidden="true">${svg`<path d="M4 7h16M4 12h16M4 17h10" />`}</svg>
    <span>${state.menu ? WORDS.close : WORDS.menu.label}</span>
  </button>
  ${state.menu ? menu(state, on) : nothing}
</header>`;
