// The other ways a marking can be read; a tap takes one.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";

/** @param {{ says: string, assumed: string[] }[]} readings the likeliest first @param {import("../stand-in.js").Verbs} on */
export const readings = (readings, on) => {
  const others = readings.slice(1);
  if (!others.length) return nothing;
  return html`<section>
    <h3>${WORDS.capacitor.readings}</h3>
    <ul class="candidates">
      ${others.map(
        ({ says, assumed }) => html`<li>
          <button type="button" class="candidate" @click=${() => on.take({ marking: says })}>
            <b>${says}</b>${assumed.map((one) => html`<span class="says">${one}</span>`)}
          </button>
        </li>`,
      )}
    </ul>
  </section>`;
};
