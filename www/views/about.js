// What the page is, and the cautions that hold whatever the answer.

import { html } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";

/** @param {import("../state.js").State} state */
export const about = (state) => {
  const { about: SAY } = WORDS;
  return html`
    <h2>${SAY.title}</h2>
    ${SAY.what.map((says) => html`<p>${says}</p>`)}
    <p>${SAY.works} ${state.offline ? SAY.worksWays.yes : SAY.worksWays.no}</p>
    <h3>${SAY.cautionsTitle}</h3>
    <ul class="lines">${SAY.cautions.map((says) => html`<li>${says}</li>`)}</ul>
  `;
};
