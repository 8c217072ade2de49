// An old part with its colour marks, each to be tapped; and the bands of a new one, to be looked for. Beside every colour stands its name.

import { html, nothing, svg } from "../vendor/lit-html.js";
import { UNTOLD } from "../sheets.js";
import { WORDS } from "../words.js";

const { colours: SAY } = WORDS;

/** How the colours are drawn; the name says which it is. @type {Record<string, string>} */
const HUES = {
  black: "#161616", brown: "#6b3a1a", red: "#c62828", orange: "#f07f1a", yellow: "#f7d417", green: "#2e7d32", blue: "#1f4fb5",
  violet: "#7b3fa0", grey: "#878787", white: "#ffffff", gold: "#c2972b", silver: "#c9cdd1", pink: "#f29bb5",
  gray: "#878787", purple: "#7b3fa0",
};
/** The part under its bands and dots. @type {Record<string, string>} */
const BODIES = { resistor_bands: "#dcc9a3", mica_dots: "#7d4a2d", paper_bands: "#efe3c4", ceramic: "#e6d9c6" };

/** A colour in a square. @param {string} colour */
export const swatch = (colour) => html`<svg class="swatch" viewBox="0 0 24 24" preserveAspectRatio="none" aria-hidden="true">${HUES[colour]
  ? svg`<rect x="1.5" y="1.5" width="21" height="21" fill=${HUES[colour]} />`
  : svg`<rect class="blank-mark" x="1.5" y="1.5" width="21" height="21" /><path class="blank-mark" d="M2 22L22 2" />`}</svg>`;

/** One mark on the body under it. @param {string} shape @param {string | undefined} colour @param {string | undefined} body */
const piece = (shape, colour, body) => {
  const hue = HUES[colour ?? ""];
  const kind = hue ? "" : "blank-mark";
  const fill = hue ?? "none";
  const under = svg`<rect class=${body ? "" : "bare"} width="48" height="72" fill=${body ?? "none"} />`;
  if (shape === "whole") return svg`<rect class=${kind} x="1.5" y="1.5" width="45" height="69" fill=${fill} />`;
  const width = shape === "wide" ? 40 : 24;
  return svg`${under}<rect class="plate" x=${22 - width / 2} width=${width + 4} y="0" height="72" /><rect class=${kind} x=${24 - width / 2} width=${width} y="1" height="70" fill=${fill} />`;
};

/** A dot, which stays round however wide its place is. @param {string | undefined} colour @param {string | undefined} body */
const dot = (colour, body) => {
  const hue = HUES[colour ?? ""];
  return html`<svg aria-hidden="true">
    <rect width="100%" height="100%" fill=${body ?? "none"} />
    <circle class="plate" cx="50%" cy="50%" r="22" /><circle class=${hue ? "" : "blank-mark"} cx="50%" cy="50%" r="18" fill=${hue ?? "none"} />
  </svg>`;
};

/** In which order the marks of a part stand from left to right. @param {string} code @param {number} count */
const places = (code, count) => {
  if (code === "body_end_dot") return count > 3 ? [1, 0, 2, 3] : [1, 0, 2];
  return Array.from({ length: count }, (_, at) => at);
};

/** @param {string} code @param {number} at @param {boolean} wide */
const shapeOf = (code, at, wide) => {
  if (code === "mica_dots" || (code === "body_end_dot" && at === 2)) return "dot";
  if (code === "body_end_dot") return "whole";
  return at === 0 && (wide || code === "ceramic") ? "wide" : "band";
};

/**
 * The old part; a tap on a mark says that this one is to be set.
 * @param {string} code
 * @param {string[]} colours as many as there are marks
 * @param {number} at the mark that is being set
 * @param {boolean} wide whether the first band is wide
 * @param {(at: number) => void} choose
 */
export const old = (code, colours, at, wide, choose) => html`<div class="drawn ${code}" role="group" aria-label=${SAY.part}>
  <div class="marks ${colours.length > 4 && code !== "mica_dots" ? "" : "few"}">
    ${places(code, colours.length).map((mark) => {
      const colour = colours[mark];
      const name = colour === UNTOLD ? SAY.untold : colour;
      const shape = shapeOf(code, mark, wide);
      const body = code === "body_end_dot" ? HUES[colours[0]] : BODIES[code];
      return html`<button type="button" class="mark" aria-pressed=${mark === at} aria-label="${SAY.mark(code, mark)} ${name}${colour === UNTOLD ? SAY.untoldHeard : ""}" @click=${() => choose(mark)}>
        ${shape === "dot" ? dot(colour, body) : html`<svg viewBox="0 0 48 72" preserveAspectRatio="none" aria-hidden="true">${piece(shape, colour, body)}</svg>`}
        <span class="name"><i>${code === "body_end_dot" ? SAY.mark(code, mark) : mark + 1}</i> <b>${name}</b></span>
      </button>`;
    })}
    ${code === "body_end_dot" && colours.length === 3
      ? html`<span class="mark"><svg aria-hidden="true"><rect class=${HUES[colours[0]] ? "" : "blank-mark"} width="100%" height="100%" fill=${HUES[colours[0]] ?? "none"} /></svg></span>`
      : nothing}
  </div>
  ${code === "mica_dots" ? html`<svg class="arrow" viewBox="0 0 240 24" aria-hidden="true"><path d="M10 12h210M206 3l16 9-16 9" /></svg>` : nothing}
</div>`;

/** The bands of a new part, drawn beside their names. @param {string[]} bands */
export const fresh = (bands) => html`<span class="fresh">
  <svg viewBox="0 0 ${bands.length * 18 + 40} 40" aria-hidden="true">
    <path d="M0 20H${bands.length * 18 + 40}" />
    <rect x="12" y="3" width=${bands.length * 18 + 16} height="34" rx="6" fill="#b9d3dd" />
    ${bands.map((band, at) => svg`<rect class="band" x=${24 + at * 18} y="3" width="11" height="34" fill=${HUES[band] ?? "none"} />`)}
  </svg>
  <span>${bands.join(" ")}</span>
</span>`;
