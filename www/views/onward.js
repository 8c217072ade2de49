// From an answer to the next question, one tap each.

import { html } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";

/** @param {[label: string, press: () => void][]} ways */
export const onward = (ways) => html`<section class="next">
  <h3>${WORDS.next}</h3>
  <p class="onward">${ways.map(([label, press]) => html`<button type="button" class="act" @click=${press}>${label}</button>`)}</p>
</section>`;
