// What is known of the place a tube goes into: pins, heaters, stage, tuning, what a rectifier feeds. Each group is folded until wanted,
// and only the groups that belong to the tube are there.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { choice, figure, further, text } from "./fields.js";
import { fault } from "./fault.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { swap: SAY, units: UNITS } = WORDS;

/** The groups with their fields, and the unit of those that are plain figures. @type {[keyof typeof SAY.groups, Record<string, string>][]} */
const GROUPS = [
  ["pins", { ties: "", tie_pins: "" }],
  ["series", { others: "", chassis_side: "", dropper_ohm: UNITS.ohm, string_a: UNITS.a, line_v: UNITS.v }],
  ["parallel", { heater_v: UNITS.v, spare_a: UNITS.a }],
  ["stage", { plate_v: UNITS.v, screen_v: UNITS.v, plate_ma: UNITS.ma, cathode_ohm: UNITS.ohm, load_kohm: UNITS.kohm, b_plus_v: UNITS.v }],
  ["signal", { agc: "", tuned_khz: UNITS.khz, tuned_pf: UNITS.pf }],
  ["rectifier", { load_ma: UNITS.ma, first_uf: UNITS.uf, secondary_v: UNITS.v, secondary_ohm: UNITS.ohm }],
];

/** Whether the tube the set wants is a rectifier; undefined while it is not known. @param {State} state */
const rectifies = ({ answers, fields }) => {
  for (const answer of answers) {
    const tube = "original" in answer ? answer.original : fields.swap.set && answer.answer === "tube" ? answer.tube : undefined;
    if (tube) return tube.units.some((unit) => /rectifier|damper/.test(unit.function));
  }
  return undefined;
};

/** @param {State} state @param {Verbs} on */
export const place = (state, on) => {
  const fields = state.fields.swap;
  const wrong = fault("swap", state.answers);
  const rectifier = rectifies(state);
  const say = /** @type {Record<string, string>} */ (/** @type {unknown} */ (SAY));
  const belongs = {
    pins: true,
    series: fields.heaters === "series",
    parallel: fields.heaters === "parallel",
    stage: rectifier !== true,
    signal: rectifier !== true,
    rectifier: rectifier !== false,
  };
  /** @param {string} name @param {string} unit */
  const one = (name, unit) => {
    const blank = { name, label: say[name], fields, on, unit, fault: wrong };
    const pick = (/** @type {string} */ value) => on.choose(name, value);
    if (name === "ties") return choice(name, say.ties, SAY.tiesWays, fields.ties ?? "", pick);
    if (name === "agc") return choice(name, say.agc, SAY.agcWays, fields.agc ?? "", pick);
    if (name === "tie_pins") return fields.ties === "some" ? text(blank) : nothing;
    return name === "others" ? text({ ...blank, wide: true }) : figure(blank);
  };
  const filled = (/** @type {Record<string, string>} */ group) => Object.keys(group).filter((name) => fields[name]).length;
  const count = (/** @type {number} */ some) => (some ? html`<i>${SAY.filled(some)}</i>` : nothing);
  const shown = (/** @type {typeof GROUPS[number]} */ [name, group]) => belongs[name] || (name !== "series" && name !== "parallel" && filled(group) > 0);
  const all = GROUPS.filter(shown).reduce((sum, [, group]) => sum + filled(group), 0);
  // Each group keeps its place in the list, so that one that comes or goes does not fold another.
  return further(html`${SAY.tell} ${count(all)}`, SAY.tellWhy, state.telling, on, GROUPS.map((group) =>
    shown(group)
      ? html`<details class="fold wide">
          <summary>${SAY.groups[group[0]]} ${count(filled(group[1]))}</summary>
          <div class="grid">${Object.entries(group[1]).map(([name, unit]) => one(name, unit))}</div>
        </details>`
      : nothing,
  ));
};
