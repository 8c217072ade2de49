// The first visit: one line that says what the page does, three examples to tap, and a whole set to try. Gone after the first question
// of one's own.

import { html, nothing } from "../vendor/lit-html.js";
import { EXAMPLES, WORDS } from "../words.js";
import { clean } from "./header.js";

/** @typedef {import("../address.js").Screen} Screen */

/** @param {import("../state.js").State} state @param {import("../stand-in.js").Verbs} on */
export const welcome = (state, on) => {
  if (state.asked) return nothing;
  const { welcome: SAY } = WORDS;
  const buttons = (/** @type {typeof EXAMPLES.first} */ examples) =>
    html`<ul class="examples">
      ${examples.map(
        ({ says, screen, fields }) =>
          html`<li><button type="button" @click=${() => on.go(/** @type {Screen} */ (screen), clean(fields))}>${says}</button></li>`,
      )}
    </ul>`;
  return html`<section class="welcome">
    <p class="lead">${SAY.line}</p>
    <h2>${SAY.examples}</h2>
    ${buttons(EXAMPLES.first)}
    <details class="fold">
      <summary>${SAY.kitchen}</summary>
      <p>${SAY.about}</p>
      ${buttons(/** @type {any} */ (EXAMPLES.kitchen))}
    </details>
  </section>`;
};
