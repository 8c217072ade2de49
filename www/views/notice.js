// One quiet line above the bar: something to know, with at most one button, and a way to put it away.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";

/** @param {import("../state.js").Notice} notice @param {import("../stand-in.js").Verbs} on */
export const notice = ({ says, button, press }, on) => html`<div class="notice" part="notice" role="status">
  <p>${says}</p>
  ${button ? html`<button class="act" @click=${press}>${button}</button>` : nothing}
  <button class="plain" @click=${on.dismiss}>${WORDS.close}</button>
</div>`;
