// What a tube is: socket, heater, units and their figures, other names, and where all that comes from.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { folded } from "./findings.js";
import { legend, pinTable, socket } from "./socket.js";

/** @typedef {import("../answers").TubeView} TubeView */

const { swap: SAY } = WORDS;

/** @param {string} name @param {unknown} value */
const fact = (name, value) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`;

/** The socket with the facts one looks for first. @param {TubeView} tube */
export const socketSheet = (tube) => html`<section class="what">
  <h3>${SAY.whatItIs}</h3>
  <dl class="facts">
    ${fact(SAY.heater, tube.heater)}
    ${fact(SAY.base, tube.basing ? `${tube.base}, ${tube.basing}` : tube.base)}
    ${tube.names.length ? fact(SAY.otherNames, tube.names.join(", ")) : nothing}
    ${tube.found_today ? fact(SAY.found, SAY.foundWays[tube.found_today] ?? tube.found_today) : nothing}
  </dl>
  ${socket(tube, SAY.socket)} ${legend([tube], [])} ${pinTable([{ tube }])}
</section>`;

/** @param {TubeView} tube */
const figures = (tube) => tube.units.map(
  ({ function: name, alike, figures }) => html`<h4>${name}</h4>
    ${alike > 1 ? html`<p>${SAY.alike(alike)}</p>` : nothing}
    <dl class="figures">${figures.map(([words, value]) => fact(words, value))}</dl>`,
);

/** @param {TubeView} tube */
const designation = (tube) =>
  tube.designation.length
    ? html`<h4>${SAY.designation}</h4><ul class="lines">${tube.designation.map((says) => html`<li>${says}</li>`)}</ul>`
    : nothing;

/** @param {TubeView} tube @param {import("../stand-in.js").Verbs} on */
export const source = (tube, on) => html`<h3>${SAY.source}</h3><p>${SAY.sourceIs(tube.source)}</p>
  ${tube.unsure.length ? html`<p>${SAY.unsure} ${tube.unsure.join(", ")}.</p>` : nothing}
  <p><button type="button" class="act" @click=${() => on.go("row", { type: tube.type })}>${SAY.toRow}</button></p>`;

/** All figures, folded. @param {TubeView} tube @param {import("../stand-in.js").Verbs} [on] where its source belongs inside */
export const tubeSheet = (tube, on) => html`
  ${tube.note ? html`<p class="aside">${tube.type}: ${tube.note}</p>` : nothing}
  ${folded(`${tube.type}: ${tube.is}`, html`${designation(tube)} ${figures(tube)} ${on ? source(tube, on) : nothing}`)}
`;
