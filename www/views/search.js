// What could this be: types that fit what can still be read or measured, each one tap from its own page.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";
import { faultVerdict, fault } from "./fault.js";
import { choice, figure, foot, further, pick, text } from "./fields.js";
import { identity, trouble, verdict } from "./verdict.js";
import { welcome } from "./welcome.js";

/** @typedef {import("../answers").SearchAnswer} SearchAnswer */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { search: SAY, swap, units: UNITS } = WORDS;

/** The words a column takes, to choose from. @param {State} state @param {string} name */
const words = (state, name) => ({
  "": SAY.any,
  ...Object.fromEntries(state.columns.find(({ column }) => column === name)?.one_of.map((word) => [word, word.replaceAll("_", " ")]) ?? []),
});

/** @param {State} state @param {Verbs} on */
export const searchQuestion = (state, on) => {
  const fields = state.fields.search;
  const say = /** @type {Record<string, string>} */ (/** @type {unknown} */ (SAY));
  const blank = (/** @type {string} */ name, /** @type {string} */ unit = "") => ({ name, label: say[name], fields, on, unit, fault: fault("search", state.answers) });
  const choose = (/** @type {string} */ name) => (/** @type {string} */ value) => on.choose(name, value);
  return html`
    ${text({ ...blank("text"), placeholder: SAY.textPlaceholder, help: SAY.textHelp })}
    ${foot(further(SAY.tell, SAY.tellWhy, state.telling || Object.keys(fields).some((name) => name !== "text" && fields[name]), on, html`
      ${pick("base", SAY.base, words(state, "base"), fields.base ?? "", choose("base"))}
      ${figure(blank("pins"))} ${choice("top_cap", SAY.top_cap, SAY.capWays, fields.top_cap ?? "", choose("top_cap"))}
      ${figure(blank("heater_v", UNITS.v))} ${figure(blank("heater_a", UNITS.a))}
      ${pick("function", SAY.function, words(state, "function"), fields.function ?? "", choose("function"))}
    `), on, Object.values(fields).some(Boolean))}
  `;
};

/** What fits, to tap. @param {SearchAnswer} answer @param {(type: string) => void} take @param {unknown} onward where to go when none of them is it */
export const matches = ({ matches, count, says: all }, take, onward) => {
  const [, word, says = ""] = /^(.*?\.)(?: (.*))?$/s.exec(all) ?? ["", all];
  return html`
  ${identity({ mark: "unknown", word, says }, null)}
  ${matches.length
    ? html`<section>
        <h3>${SAY.title}</h3>
        <ul class="candidates">
          ${matches.map(
            (one) => html`<li>
              <button type="button" class="candidate" @click=${() => take(one.type)}>
                <b>${one.type}</b>
                ${one.found_today ? html`<i>${swap.foundWays[one.found_today] ?? one.found_today}</i>` : nothing}
                <span class="says">${one.is}; ${one.base}; ${swap.heater} ${one.heater}</span>
                ${one.name === one.type ? nothing : html`<span class="also">${swap.otherNames} ${one.name}</span>`}
              </button>
            </li>`,
          )}
        </ul>
      </section>`
    : html`<p>${SAY.none}</p>`}
  ${count > matches.length && matches.length ? html`<p class="aside">${SAY.known(matches.length)}</p>` : nothing}
  ${onward}`;
};

/** A number the book lacks may be added to it, when every character of it can be read. @param {string} type @param {Verbs} on */
const add = (type, on) =>
  /\d/.test(type) && !type.includes("?")
    ? html`<p><button type="button" class="act" @click=${() => on.go("row", { type: type.trim() })}>${swap.addToBook}</button></p>`
    : nothing;

/** @param {State} state @param {Verbs} on */
export const searchAnswer = (state, on) => {
  const out = trouble(state);
  if (out) return verdict(out, "");
  const [main] = state.answers;
  if (!main) return html`${verdict(null, state.core === "starting" ? WORDS.starting : WORDS.waiting.search)} ${welcome(state, on)}`;
  if (main.answer === "search") return matches(main, (set) => on.own(set), main.matches.length ? nothing : add(state.fields.search.text ?? "", on));
  return main.answer === "error" ? verdict(faultVerdict(main, "search"), "") : nothing;
};
