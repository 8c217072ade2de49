// The blanks of a question: text, figure with unit, choice of a few words, choice from a list.

import { html, nothing } from "../vendor/lit-html.js";
import { WORDS } from "../words.js";

/** @typedef {import("../stand-in.js").Verbs} Verbs */
/** @typedef {import("../sheets.js").Fields} Fields */

/**
 * @typedef {object} Blank
 * @property {string} name of the field
 * @property {string} label
 * @property {Fields} fields
 * @property {Verbs} on
 * @property {string} [unit] shown behind a figure
 * @property {string} [placeholder]
 * @property {unknown} [help] a line under the blank
 * @property {{ field: string, says: string } | null} [fault] what the core could not read
 * @property {boolean} [wide] text that may run long
 * @property {boolean} [many] text of many lines, in which Enter begins a new one
 */

/** @param {Blank} blank @param {string} kind @param {string} mode @param {string} described */
const short = ({ name, fields, on, placeholder, fault }, kind, mode, described) => html`<input
  id=${name}
  data-field=${name}
  type="text"
  .value=${fields[name] ?? ""}
  placeholder=${placeholder ?? ""}
  inputmode=${mode}
  enterkeyhint="go"
  autocapitalize=${kind === "type" ? "characters" : "off"}
  autocorrect="off"
  autocomplete="off"
  spellcheck="false"
  aria-invalid=${fault?.field === name}
  aria-describedby=${described || nothing}
  @input=${(/** @type {Event} */ event) => on.type(name, /** @type {HTMLInputElement} */ (event.target).value)}
/>`;

/** A blank of several lines; Enter answers here too. @param {Blank} blank @param {string} described */
const long = ({ name, fields, on, placeholder, fault, many }, described) => html`<textarea
  id=${name}
  data-field=${name}
  class=${many ? "many" : nothing}
  rows=${many ? 6 : 2}
  .value=${fields[name] ?? ""}
  placeholder=${placeholder ?? ""}
  enterkeyhint=${many ? "enter" : "go"}
  autocapitalize=${many ? "off" : "characters"}
  autocorrect="off"
  autocomplete="off"
  spellcheck="false"
  aria-invalid=${fault?.field === name}
  aria-describedby=${described || nothing}
  @input=${(/** @type {Event} */ event) => on.type(name, /** @type {HTMLTextAreaElement} */ (event.target).value)}
  @keydown=${(/** @type {KeyboardEvent} */ event) => {
    if (event.key !== "Enter" || many) return;
    event.preventDefault();
    on.enter();
  }}
></textarea>`;

/** @param {Blank} blank @param {string} kind @param {string} mode */
const input = (blank, kind, mode) => {
  const { name, label, fields, on, unit, help, fault } = blank;
  const text = fields[name] ?? "";
  const wrong = fault?.field === name;
  const described = [wrong && fault?.says && `${name}-fault`, help && `${name}-help`].filter(Boolean).join(" ");
  return html`<div class="blank ${kind} ${wrong ? "wrong" : ""}">
    <label for=${name}>${label}</label>
    <span class="line">
      ${kind === "text wide" ? long(blank, described) : short(blank, kind, mode, described)}
      ${unit && !/[a-zµμΩ]/i.test(text) ? html`<span class="unit">${unit}</span>` : nothing}
      ${text
        ? html`<button type="button" class="wipe" aria-label=${WORDS.clearField(label)} @click=${() => on.clear(name)}>
            <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M6 6l12 12M18 6L6 18" /></svg>
          </button>`
        : nothing}
    </span>
    ${wrong && fault?.says ? html`<p class="fault" id="${name}-fault">${fault.says}</p>` : nothing}
    ${help ? html`<p class="help" id="${name}-help">${help}</p>` : nothing}
  </div>`;
};

/** A tube type. @param {Blank} blank */
export const type = (blank) => input(blank, "type", "text");
/** What is written on a part, or a list. @param {Blank} blank */
export const text = (blank) => input(blank, blank.wide ? "text wide" : "text", "text");
/** A figure. @param {Blank} blank */
export const figure = (blank) => input(blank, "figure", "decimal");

/**
 * A choice of a few words, all in sight.
 * @param {string} name
 * @param {string} label
 * @param {Record<string, string>} words value to word; the empty value is "not given"
 * @param {string} chosen
 * @param {(value: string) => void} choose
 */
export const choice = (name, label, words, chosen, choose) => html`<fieldset class="choice">
  <legend>${label}</legend>
  <span class=${Object.values(words).some((word) => word.length > 12) ? "ways long" : "ways"}>
    ${Object.entries(words).map(
      ([value, word]) => html`<label>
        <input
          type="radio"
          name=${name}
          value=${value}
          data-field=${value === (chosen ?? "") ? name : nothing}
          .checked=${value === (chosen ?? "")}
          @change=${() => choose(value)}
        />
        <span>${word}</span>
      </label>`,
    )}
  </span>
</fieldset>`;

/**
 * A choice from a longer list.
 * @param {string} name
 * @param {string} label
 * @param {Record<string, string>} words
 * @param {string} chosen
 * @param {(value: string) => void} choose
 */
export const pick = (name, label, words, chosen, choose) => html`<div class="blank pick">
  <label for=${name}>${label}</label>
  <span class="line">
    <select id=${name} data-field=${name} @change=${(/** @type {Event} */ event) => choose(/** @type {HTMLSelectElement} */ (event.target).value)}>
      ${Object.entries(words).map(([value, word]) => html`<option value=${value} .selected=${value === (chosen ?? "")}>${word}</option>`)}
    </select>
  </span>
</div>`;

/** Further facts, folded until wanted. @param {unknown} label @param {string} why @param {boolean} open @param {Verbs} on @param {unknown} inside */
export const further = (label, why, open, on, inside) => html`<details
  class="further"
  .open=${open}
  @toggle=${(/** @type {Event} */ event) => {
    const now = /** @type {HTMLDetailsElement} */ (event.target).open;
    if (now !== open) on.tell(now);
  }}
>
  <summary>${label}</summary>
  <p class="help">${why}</p>
  <div class="grid">${inside}</div>
</details>`;

/**
 * Blanks folded by themselves; what is filled in stands in the summary, so that nothing given is out of sight.
 * @param {string} label
 * @param {string} why
 * @param {string} filled
 * @param {unknown} inside
 */
export const aside = (label, why, filled, inside) => html`<details class="further">
  <summary><span>${label}${filled ? html`: <b>${filled}</b>` : nothing}</span></summary>
  <p class="help">${why}</p>
  <div class="grid">${inside}</div>
</details>`;

/** Usual values of a field, to tap. @param {string} name @param {string[]} values @param {Fields} fields @param {Verbs} on */
export const quick = (name, values, fields, on) => html`<div class="quick">
  ${values.map(
    (value) =>
      html`<button type="button" aria-pressed=${value === fields[name]} @click=${() => on.choose(name, value)}>${value}</button>`,
  )}
</div>`;

/** Two short blanks beside each other. @param {unknown} one @param {unknown} other */
export const pair = (one, other) => html`<div class="pair">${one} ${other}</div>`;

/** The last row of a question: further facts if there are any, and one tap that empties it. @param {unknown} more @param {Verbs} on @param {boolean} filled */
export const foot = (more, on, filled) => html`<div class="foot">${more}${clearAll(on, filled)}</div>`;

/** @param {Verbs} on @param {boolean} filled */
const clearAll = (on, filled) =>
  html`<button type="button" class="plain clear" ?disabled=${!filled} @click=${on.clearAll}>${WORDS.clear}</button>`;
