// The place Supply: what replaces this rectifier, and does the heater string work?

import { html, nothing } from "../vendor/lit-html.js";
import { LASTING } from "../sheets.js";
import { ON_WINDING, fieldOf, items, list, missing } from "../questions.js";
import { WORDS } from "../words.js";
import { fault, faultVerdict, notInBook } from "./fault.js";
import { aside, choice, figure, foot, further, pair, quick, text, type } from "./fields.js";
import { heaters } from "./heaters.js";
import { lost, names } from "./near.js";
import { rectifier } from "./rectifier.js";
import { switcher } from "./switch.js";
import { trouble, verdict } from "./verdict.js";
import { welcome } from "./welcome.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */
/** @typedef {"rectifier" | "heaters"} Sheet */

const { units: UNITS } = WORDS;
/** Line voltages one meets. */
const LINES = ["117", "120", "123", "220", "230", "240"];

/** Line voltages that stand on the plates of sets. */
const DESIGNED = ["110", "117", "220"];
/** Heater windings. */
const WINDINGS = ["2.5", "5", "6.3", "12.6"];

/** @param {import("../sheets.js").Fields} fields */
const filled = (fields) => Object.keys(fields).some((name) => fields[name] && !LASTING.includes(name));

/** @param {Sheet} sheet @param {State} state @param {Verbs} on */
const blanks = (sheet, state, on) => {
  const say = /** @type {Record<string, string>} */ (/** @type {unknown} */ (WORDS[sheet]));
  const wrong = fault(sheet, state.answers);
  return (/** @type {string} */ name, /** @type {string} */ unit = "", /** @type {string} */ placeholder = "") => ({
    name, label: say[name], fields: state.fields[sheet], on, unit, placeholder, fault: wrong,
  });
};

/**
 * The blanks of a supply, which the sheet of a set has too.
 * @param {import("../sheets.js").Fields} fields
 * @param {(name: string, unit?: string, placeholder?: string) => import("./fields.js").Blank} blank
 * @param {(name: string) => string} named what a choice is called in the page
 * @param {Verbs} on
 */
export const supplyBlanks = (fields, blank, named, on) => {
  const SAY = WORDS.rectifier;
  const { defaults } = SAY;
  const { wiring = "" } = fields;
  const choose = (/** @type {string} */ name) => (/** @type {string} */ value) => on.choose(named(name), value);
  const onWinding = ON_WINDING.includes(wiring);
  const winding = html`${pair(figure(blank("secondary_v", UNITS.v)), figure(blank("secondary_ohm", UNITS.ohm)))}
    <p class="help">${SAY.windingHelp[wiring === "two_plates" ? wiring : ""]}</p>`;
  const measured = [fields.measured_v && `${fields.measured_v} ${UNITS.v}`, fields.measured_ripple_v && `${fields.measured_ripple_v} ${UNITS.v} ~`];
  return {
    first: html`
      ${choice(named("wiring"), SAY.wiring, SAY.wirings, wiring, choose("wiring"))}
      ${choice(named("original"), SAY.what, SAY.ways, fields.original ?? "", choose("original"))}
      ${fields.original === "tube" ? pair(type(blank("type")), type(blank("replacement", "", SAY.replacementNone))) : nothing}
      ${onWinding ? winding : nothing}
      ${pair(figure(blank("first_uf", UNITS.uf)), figure(blank("load_ma", UNITS.ma)))}
      ${fields.load_ma || fields.load_tubes || fields.load_ohm ? nothing : html`<p class="help">${SAY.loadHelp}</p>`}
      ${wiring === "portable"
        ? html`${text({ ...blank("filament_tubes", "", SAY.filamentPlaceholder), wide: true, help: SAY.filamentHelp })} ${figure(blank("filament_ohm", UNITS.ohm))}`
        : nothing}`,
    measured: aside(SAY.measuredFold, SAY.measuredWhy, measured.filter(Boolean).join(", "), html`
      ${figure(blank("measured_v", UNITS.v))} ${figure(blank("measured_ripple_v", UNITS.v))}
    `),
    more: html`
      ${figure(blank("target_v", UNITS.v, defaults.target_v))}
      ${fields.original === "selenium" ? figure(blank("plates")) : nothing}
      ${fields.original === "tube" ? html`${figure(blank("drop_v", UNITS.v))} ${figure(blank("drop_ma", UNITS.ma))}` : nothing}
      ${figure(blank("rated_v", UNITS.v, defaults.rated_v))}
      ${figure(blank("filter_ohm", UNITS.ohm, defaults.filter_ohm))}
      ${figure(blank("filter_henry", UNITS.henry, defaults.filter_henry))}
      ${figure(blank("second_uf", UNITS.uf, defaults.second_uf))}
      ${figure(blank("after_ma", UNITS.ma, defaults.after_ma))}
      ${figure(blank("fitted_ohm", UNITS.ohm, defaults.fitted_ohm))}
      ${onWinding || (wiring === "doubler" && fields.secondary_v) ? figure(blank("primary_ohm", UNITS.ohm, defaults.primary_ohm)) : nothing}
      ${wiring === "doubler"
        ? html`${choice(named("doubler"), SAY.doubler, SAY.doublers, fields.doubler ?? "", choose("doubler"))}
          ${figure(blank("doubler_uf", UNITS.uf, defaults.doubler_uf))} ${figure(blank("secondary_v", UNITS.v, defaults.secondary_v))}
          ${figure(blank("secondary_ohm", UNITS.ohm, defaults.secondary_v))}`
        : nothing}
      ${text(blank("load_tubes"))} ${figure(blank("load_ohm", UNITS.ohm))}`,
  };
};

/** @param {State} state @param {Verbs} on */
const rectifierQuestion = (state, on) => {
  const SAY = WORDS.rectifier;
  const fields = state.fields.rectifier;
  const blank = blanks("rectifier", state, on);
  const { first, measured, more } = supplyBlanks(fields, blank, (name) => name, on);
  return html`
    ${first}
    ${pair(
      figure(blank("line_v", UNITS.v, SAY.defaults.line_v)),
      choice("line_hz", SAY.line_hz, SAY.hzWays, fields.line_hz ?? "", (value) => on.choose("line_hz", value)),
    )}
    ${quick("line_v", LINES, fields, on)}
    ${measured}
    ${foot(further(SAY.tell, SAY.tellWhy, state.telling, on, more), on, filled(fields))}
  `;
};

/** @param {State} state @param {Verbs} on */
const heatersQuestion = (state, on) => {
  const SAY = WORDS.heaters;
  const fields = state.fields.heaters;
  const blank = blanks("heaters", state, on);
  const add = (/** @type {string} */ item) => on.choose("tubes", [fields.tubes?.trim(), item].filter(Boolean).join(" "));
  const line = html`
    ${pair(
      figure(blank("line_v", UNITS.v, WORDS.rectifier.defaults.line_v)),
      figure(blank("dropper_ohm", UNITS.ohm, SAY.dropperPlaceholder)),
    )}
    ${quick("line_v", LINES, fields, on)}
    ${choice("line_hz", SAY.line_hz, SAY.hzWays, fields.line_hz ?? "", (value) => on.choose("line_hz", value))}`;
  const winding = html`
    ${pair(figure(blank("winding_v", UNITS.v)), figure(blank("winding_a", UNITS.a, SAY.windingPlaceholder)))}
    ${quick("winding_v", WINDINGS, fields, on)}`;
  return html`
    ${text({ ...blank("tubes", "", SAY.tubesPlaceholder), wide: true, help: SAY.tubesHelp })}
    <details class="further">
      <summary>${SAY.itemsFold}</summary>
      <p class="help">${SAY.itemsWhy}</p>
      <ul class="items">
        ${SAY.items.map(([item, says]) => html`<li><button type="button" @click=${() => add(item)}><b>${item}</b> <span>${says}</span></button></li>`)}
      </ul>
    </details>
    ${choice("fed", SAY.fed, SAY.feds, fields.fed ?? "", (value) => on.choose("fed", value))}
    ${fields.fed === "winding" ? winding : line}
    ${foot(
      fields.fed === "winding"
        ? nothing
        : further(SAY.tell, SAY.tellWhy, state.telling, on, html`${figure(blank("designed_v", UNITS.v, SAY.designedPlaceholder))} ${quick("designed_v", DESIGNED, fields, on)}`),
      on,
      filled(fields),
    )}
  `;
};

/** A type of the string that is not in the book, replaced in the list by the name tapped. @param {string} tubes @param {string} field @param {string} name */
const replaced = (tubes, field, name) => {
  const place = Number(/\[(\d+)\]/.exec(field)?.[1] ?? -1);
  return items(tubes).map((one, at) => (at === place ? name : one)).join(" ");
};

/** @param {Sheet} sheet @param {State} state @param {Verbs} on */
const answer = (sheet, state, on) => {
  const out = trouble(state);
  if (out) return verdict(out, "");
  const fields = state.fields[sheet];
  const [main] = state.answers;
  if (!main) {
    const { waiting } = WORDS;
    const wants = sheet === "rectifier" ? missing(fields) || sheet : items(fields.tubes).length ? "heaters_winding" : sheet;
    const says = state.core === "starting" ? WORDS.starting : waiting[wants];
    return html`${verdict(null, says)} ${welcome(state, on)}`;
  }
  if (main.answer === "rectifier") return rectifier(main, fields, on);
  if (main.answer === "heater_string") return heaters(main, fields, on);
  if (main.answer !== "error") return nothing;
  const field = fieldOf(sheet, main.field);
  const at = /\[(\d+)\]/.exec(main.field)?.[1];
  const typed = fields[field] ?? "";
  const take = (/** @type {string} */ name) => on.take({ [field]: at === undefined ? name : replaced(typed, main.field, name) });
  return html`${verdict(faultVerdict(main, sheet), "")}
    ${typed || notInBook(main) ? nothing : html`<p><button type="button" class="act" @click=${() => on.tell(true, field)}>${WORDS.fillIn}</button></p>`}
    ${names(main.near ?? [], take)}
    ${notInBook(main) ? lost(at === undefined ? typed : (sheet === "heaters" ? items : list)(typed)[Number(at)], on) : nothing}`;
};

/** @param {State} state @param {Verbs} on */
export const supply = (state, on) => {
  const sheet = state.screen === "heaters" ? "heaters" : "rectifier";
  return {
    question: html`
      ${switcher(WORDS.supply, sheet, on)}
      ${sheet === "rectifier" ? rectifierQuestion(state, on) : heatersQuestion(state, on)}
    `,
    answer: html`${answer(sheet, state, on)}`,
  };
};
