// A socket seen from below: pins at their true angles, key or gap at the bottom, what is on each pin, wires that move, pins that need
// a look. The same in words for screen readers, and as a table that prints.

import { html, nothing, svg } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";

/** @typedef {import("../answers").TubeView} TubeView */
/** @typedef {import("../answers").PinView} PinView */
/** @typedef {import("../answers").Move} Move */

/**
 * What a swap says about the pins of one socket.
 * @typedef {object} Marks
 * @property {Map<string, string[]>} moves for a pin, the pins its wire goes to or comes from
 * @property {boolean} leaving whether the wires leave this socket or arrive at it
 * @property {[string, string][]} arrows from pin to pin: inside this socket when both are alike, else from this socket to the other
 * @property {string[]} danger pins that need a look first
 */

const { socket: SAY } = WORDS;
const WIDTH = 340;
const HEIGHT = 290;
const MIDDLE = { x: 170, y: 148 };
const PINS = 68;
const BODY = 91;
const LABELS = 108;
/** Where a top cap stands. */
const CAP = { x: 20, y: 24 };
/** Room above a socket for its title, where two are in one drawing. */
const TITLE = 44;

/** Pins named in a move: "2", "1 and 7", "cap". What goes nowhere names none. @param {string} text */
const pinsOf = (text) => text.match(/\bcap\b|\b\d{1,2}\b/g) ?? [];

/**
 * The marks of both sockets of a swap.
 * @param {Move[]} moves
 * @param {string[]} danger
 * @param {boolean} alike whether both have the same base
 * @returns {[Marks, Marks]}
 */
export const marksOf = (moves, danger, alike) => {
  const to = new Map();
  const from = new Map();
  /** @type {[string, string][]} */
  const arrows = [];
  /** @param {Map<string, string[]>} map @param {string[]} pins @param {string[]} others */
  const add = (map, pins, others) => {
    for (const pin of pins) map.set(pin, [...new Set([...(map.get(pin) ?? []), ...others])]);
  };
  for (const move of moves) {
    const [old, next] = [pinsOf(move.from), pinsOf(move.to)];
    // On another base a wire moves even where the number stays.
    if (alike && old.join() === next.join()) continue;
    add(to, old, next);
    add(from, next, old);
    const wires = next.length ? Math.max(old.length, next.length) : 0;
    for (let at = 0; at < wires; at += 1) arrows.push([old[at % old.length], next[at % next.length]]);
  }
  return [
    // In the set's own socket an arrow says enough; the pins left over are marked in both.
    { moves: to, leaving: true, arrows, danger: alike ? danger.filter((pin) => !to.has(pin)) : [] },
    { moves: from, leaving: false, arrows: [], danger },
  ];
};

/** @param {number} degrees clockwise from straight down @param {number} radius */
const at = (degrees, radius) => {
  const turn = (degrees * Math.PI) / 180;
  return { x: MIDDLE.x - radius * Math.sin(turn), y: MIDDLE.y + radius * Math.cos(turn) };
};

/** A long label in lines: "g2+g4", "k (1)+g3". @param {string} label */
const lines = (label) => (label.length > 7 ? label.split(/\+(?=[a-z])/).map((part, place) => (place ? `+${part}` : part)) : [label]);

/** @param {PinView} pin @param {{ x: number, y: number }} place */
const dot = ({ pin, part }, { x, y }) => {
  const number = pin === "cap" ? "" : pin;
  const shape =
    part === "heater"
      ? svg`<rect class="heater" x=${x - 14} y=${y - 14} width="28" height="28" rx="3" />`
      : svg`<circle class=${part} cx=${x} cy=${y} r="15" />`;
  return svg`<g class="pin ${part}">${shape}<text x=${x} y=${y + 6} text-anchor="middle">${number}</text></g>`;
};

/** @param {string[]} text @param {{ x: number, y: number }} place @param {"start" | "middle" | "end"} anchor @param {boolean} moved */
const label = (text, { x, y }, anchor, moved) =>
  svg`<text class=${moved ? "label moved" : "label"} text-anchor=${anchor}>
    ${text.map((line, row) => svg`<tspan x=${x} y=${y + 6 + (row - (text.length - 1) / 2) * 19}>${line}</tspan>`)}
  </text>`;

/** @param {PinView} pin @param {Marks | undefined} marks */
const wire = ({ pin }, marks) => {
  const others = marks?.moves.get(pin);
  if (!others) return "";
  return others.length ? `${marks?.leaving ? "→" : "←"}${others.join(",")}` : "→ –";
};

/** @param {PinView} pin @param {Marks | undefined} marks */
const outside = (pin, marks) => {
  if (pin.angle_deg === undefined) return nothing;
  const place = at(pin.angle_deg, LABELS);
  const lean = place.x - MIDDLE.x;
  const anchor = lean > 14 ? "start" : lean < -14 ? "end" : "middle";
  const moved = wire(pin, marks);
  return label([...lines(pin.label), ...(moved ? [moved] : [])], place, anchor, Boolean(moved));
};

/** An arrow inside the socket from where a wire is to where it goes. @param {PinView} from @param {PinView} to */
const arrow = (from, to) => {
  if (from.angle_deg === undefined || to.angle_deg === undefined) return nothing;
  const [start, end] = [at(from.angle_deg, PINS - 17), at(to.angle_deg, PINS - 20)];
  const bend = { x: MIDDLE.x + (start.x + end.x - 2 * MIDDLE.x) * 0.2, y: MIDDLE.y + (start.y + end.y - 2 * MIDDLE.y) * 0.2 };
  const angle = Math.atan2(end.y - bend.y, end.x - bend.x);
  const barb = (/** @type {number} */ off) => `${end.x - 11 * Math.cos(angle + off)} ${end.y - 11 * Math.sin(angle + off)}`;
  return svg`<path class="move" d="M${start.x} ${start.y}Q${bend.x} ${bend.y} ${end.x} ${end.y}M${barb(0.5)}L${end.x} ${end.y}L${barb(-0.5)}" />`;
};

/** @param {PinView[]} pins @param {Marks} marks */
const arrows = (pins, marks) =>
  marks.arrows.map(([from, to]) => {
    const old = pins.find(({ pin }) => pin === from);
    const next = pins.find(({ pin }) => pin === to);
    return old && next ? arrow(old, next) : nothing;
  });

/** A triangle beside a pin that needs a look. @param {PinView} pin */
const warning = (pin) => {
  const { x, y } = pin.angle_deg === undefined ? { x: 60, y: 24 } : at(pin.angle_deg, PINS - 31);
  return svg`<g class="warn"><path d="M${x} ${y - 14}l14 25h-28z" /><path class="bang" d="M${x} ${y - 5}v7M${x} ${y + 5.500}v2.500" /></g>`;
};

/** What lies straight down: the key of an octal base, the gap of a miniature one; neither on the old four- to seven-pin bases. @param {TubeView} tube */
const bottom = (tube) => {
  if (/octal|loctal/.test(tube.base)) {
    const { x, y } = MIDDLE;
    return svg`<path class="spigot" d="M${x - 6} ${y + 21}a22 22 0 1 1 12 0v8h-12z" />
      <text class="faint" x=${x} y=${y + BODY + 25} text-anchor="middle">${SAY.key}</text>`;
  }
  const angles = tube.pins.flatMap(({ angle_deg }) => (angle_deg === undefined ? [] : [angle_deg])).sort((a, b) => a - b);
  const wide = angles[0] + 360 - (angles.at(-1) ?? 0) > 1.2 * (angles[1] - angles[0]);
  return wide ? svg`<text class="faint" x=${MIDDLE.x} y=${MIDDLE.y + PINS + 6} text-anchor="middle">${SAY.gap}</text>` : nothing;
};

/** One pin in words. @param {PinView} pin @param {Marks} [marks] */
const words = (pin, marks) => {
  const name = pin.pin === "cap" ? SAY.cap : `${SAY.pin} ${pin.pin}`;
  const others = marks?.moves.get(pin.pin);
  const moved = others?.length ? `, ${marks?.leaving ? SAY.to(others.join(", ")) : SAY.from(others.join(", "))}` : "";
  return `${name}: ${pin.words}${moved}`;
};

/** Where a pin, or the cap, is drawn. @param {TubeView} tube @param {string} name */
const placeOf = (tube, name) => {
  const pin = tube.pins.find((one) => one.pin === name);
  return pin?.pin === "cap" ? CAP : pin?.angle_deg === undefined ? undefined : at(pin.angle_deg, PINS);
};

/** What is drawn of one socket, but for arrows. @param {TubeView} tube @param {Marks} [marks] */
const drawn = (tube, marks) => {
  const cap = tube.pins.find(({ pin }) => pin === "cap");
  return svg`${tube.pins.map((pin) => (pin.angle_deg === undefined ? nothing : dot(pin, at(pin.angle_deg, PINS))))}
    ${tube.pins.map((pin) => outside(pin, marks))}
    ${cap
      ? svg`${dot(cap, CAP)}${label([SAY.cap, ...lines(cap.label), ...[wire(cap, marks)].filter(Boolean)], { x: 42, y: 38 }, "start", marks?.moves.has("cap") ?? false)}`
      : nothing}
    ${marks?.danger.map((name) => {
      const pin = tube.pins.find((one) => one.pin === name);
      return pin ? warning(pin) : nothing;
    })}`;
};

/** @param {TubeView} tube */
const body = (tube) => svg`<circle class="body" cx=${MIDDLE.x} cy=${MIDDLE.y} r=${BODY} />${bottom(tube)}`;

/** An arrow from a pin of one socket to a pin of the other, with a bright edge where it crosses another. @param {{ x: number, y: number }} from @param {{ x: number, y: number }} to */
const across = (from, to) => {
  const angle = Math.atan2(to.y - from.y, to.x - from.x);
  const part = (/** @type {{ x: number, y: number }} */ { x, y }, /** @type {number} */ by, off = 0) =>
    `${(x + by * Math.cos(angle + off)).toFixed(1)} ${(y + by * Math.sin(angle + off)).toFixed(1)}`;
  const tip = { x: to.x - 18 * Math.cos(angle), y: to.y - 18 * Math.sin(angle) };
  const path = `M${part(from, 16)}L${part(tip, 0)}M${part(tip, -12, 0.5)}L${part(tip, 0)}L${part(tip, -12, -0.5)}`;
  return svg`<path class="edge" d=${path} /><path class="move" d=${path} />`;
};

/**
 * Two sockets of different bases in one drawing, with arrows from the old pins to the new: beside each other, and for a narrow page under
 * each other. Read to those who do not see it is one of them.
 * @param {[TubeView, TubeView]} tubes
 * @param {[string, string]} titles
 * @param {[Marks, Marks]} marks
 */
export const socketPair = (tubes, titles, marks) => {
  const said = tubes.map((tube, which) => SAY.below(tube.type, `${tube.pins.map((pin) => words(pin, marks[which])).join("; ")}.`)).join(" ");
  const picture = (/** @type {string} */ kind, /** @type {{ x: number, y: number }} */ step) => {
    const offset = (/** @type {number} */ which) => ({ x: step.x * which, y: TITLE + step.y * which });
    const shifted = (/** @type {number} */ which, /** @type {string} */ name) => {
      const place = placeOf(tubes[which], name);
      return place && { x: place.x + offset(which).x, y: place.y + offset(which).y };
    };
    const both = (/** @type {(which: 0 | 1) => unknown} */ draw) =>
      [0, 1].map((which) => svg`<g transform="translate(${offset(which).x} ${offset(which).y})">${draw(/** @type {0 | 1} */ (which))}</g>`);
    return html`<svg class=${kind} viewBox="0 0 ${WIDTH + step.x} ${HEIGHT + TITLE + step.y}" role="img" aria-label=${said}>
      ${both((which) => body(tubes[which]))}
      ${marks[0].arrows.map(([old, next]) => {
        const [from, to] = [shifted(0, old), shifted(1, next)];
        return from && to ? across(from, to) : nothing;
      })}
      ${both((which) => svg`<text class="label title" x=${MIDDLE.x} y="-6" text-anchor="middle">${titles[which]}</text>${drawn(tubes[which], marks[which])}`)}
    </svg>`;
  };
  return html`<figure class="socket pair-of">${picture("broad", { x: WIDTH, y: 0 })} ${picture("tall", { x: 0, y: HEIGHT + TITLE })}</figure>`;
};

/** One socket drawn. @param {TubeView} tube @param {string} title @param {Marks} [marks] */
export const socket = (tube, title, marks) => {
  if (!tube.pins.length) return html`<figure class="socket"><figcaption>${title}</figcaption><p>${WORDS.swap.noPins(tube.type)}</p></figure>`;
  const said = SAY.below(tube.type, `${tube.pins.map((pin) => words(pin, marks)).join("; ")}.`);
  return html`<figure class="socket">
    <figcaption>${title}</figcaption>
    <svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label=${said}>
      ${body(tube)} ${marks ? arrows(tube.pins, marks) : nothing} ${drawn(tube, marks)}
    </svg>
  </figure>`;
};

/** The same as a table: one tube, or both side by side. @param {{ tube: TubeView, marks?: Marks }[]} sockets */
export const pinTable = (sockets) => {
  const drawn = sockets.filter(({ tube }) => tube.pins.length);
  const pins = [...new Set(drawn.flatMap(({ tube }) => tube.pins.map(({ pin }) => pin)))];
  if (!pins.length) return nothing;
  const cell = (/** @type {{ tube: TubeView, marks?: Marks }} */ { tube, marks }, /** @type {string} */ name) => {
    const pin = tube.pins.find((one) => one.pin === name);
    return pin ? words(pin, marks).replace(/^[^:]*: /, "") : "";
  };
  return html`<details class="fold">
    <summary>${WORDS.swap.pinsInWords}</summary>
    <table>
      <thead><tr><th scope="col">${SAY.pin}</th>${drawn.map(({ tube }) => html`<th scope="col">${tube.type}</th>`)}</tr></thead>
      <tbody>
        ${pins.map((name) => html`<tr><th scope="row">${name}</th>${drawn.map((one) => html`<td>${cell(one, name)}</td>`)}</tr>`)}
      </tbody>
    </table>
  </details>`;
};

/** What the shapes mean, only those that occur. @param {TubeView[]} tubes @param {Marks[]} marks */
export const legend = (tubes, marks) => {
  const has = (/** @type {string} */ part) => tubes.some(({ pins }) => pins.some((pin) => pin.part === part));
  const lines = [
    has("heater") && SAY.heater,
    has("empty") && SAY.empty,
    (has("shell") || has("internal")) && SAY.ring,
    marks.some(({ moves }) => moves.size) && (tubes[0].base === tubes[1]?.base ? SAY.moves : SAY.crosses),
    marks.some(({ danger }) => danger.length) && SAY.danger,
  ].filter(Boolean);
  return lines.length ? html`<p class="legend">${lines.join(" · ")}</p>` : nothing;
};
