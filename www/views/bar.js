// The bar at the thumb: the four places.

import { html, svg } from "../vendor/lit-html.js";
import { placeOf } from "../sheets.js";
import { WORDS } from "../words.js";
import { named } from "./named.js";

/** @typedef {Exclude<import("../sheets.js").Place, "book">} Place */

/** Drawn by us: a tube in outline; the crest of a rectified wave; a part on its leads; a sheet with its lines. @type {Record<Place, unknown>} */
const SIGNS = {
  tube: svg`<path d="M9 20V10a7 7 0 0 1 14 0v10z M11 20v5 M16 20v5 M21 20v5 M13 9h6 M13 14h6" />`,
  supply: svg`<path d="M2 22c3 0 3-14 6-14s3 14 6 14 h4c3 0 3-14 6-14s3 14 6 14" />`,
  part: svg`<path d="M2 16h6 M8 10h16v12H8z M24 16h6 M13 10v12 M18 10v12" />`,
  sets: svg`<path d="M7 4h18v24H7z M11 10h2 M16 10h5 M11 16h2 M16 16h5 M11 22h2 M16 22h5" />`,
};

/** @param {import("../state.js").State} state @param {import("../stand-in.js").Verbs} on */
export const bar = (state, on) => {
  const here = state.screen === "about" ? null : placeOf(state.screen);
  return html`<nav class="bar" part="bar" aria-label=${named(state, WORDS.placesLabel)}>
    ${/** @type {Place[]} */ (Object.keys(SIGNS)).map(
      (place) => html`<button aria-current=${place === here ? "page" : "false"} @click=${() => on.place(place)}>
        <svg viewBox="0 0 32 32" aria-hidden="true">${SIGNS[place]}</svg>
        <span>${WORDS.places[place]}</span>
      </button>`,
    )}
  </nav>`;
};
