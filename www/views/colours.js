// What the bands or dots of an old part say: tapped on a drawing or typed, every reading ranked, each one tap from what replaces it.

import { html, nothing } from "../vendor/lit-html.js";
import { codeOf, coloursOf, onResistor } from "../questions.js";
import { LASTING, MARKS, UNTOLD } from "../sheets.js";
import { WORDS } from "../words.js";
import { old, swatch } from "./drawn.js";
import { fault } from "./fault.js";
import { choice, foot, further, pick, text } from "./fields.js";
import { folded, offer } from "./findings.js";
import { verdict } from "./verdict.js";

/** @typedef {import("../answers").ColourReading} ColourReading */
/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */
/** @typedef {import("../sheets.js").Fields} Fields */

const { colours: SAY, units: UNITS } = WORDS;

/** The marks as they are drawn: those told, and as many more as the part has. @param {Fields} fields */
const drawn = (fields) => {
  const code = codeOf(fields);
  const told = coloursOf(fields);
  const typed = !told.includes(UNTOLD) && MARKS[code].includes(told.length);
  const wanted = MARKS[code].find((count) => String(count) === fields.marks) ?? MARKS[code][0];
  const count = typed ? told.length : wanted;
  const colours = Array.from({ length: count }, (_, at) => told[at] ?? UNTOLD);
  const first = colours.indexOf(UNTOLD);
  const chosen = Number(fields.at);
  const at = fields.at && chosen < count ? chosen : first >= 0 ? first : 0;
  return { code, colours, at };
};

/** The answer in short, beside the drawing: on a phone the answer itself stands below the colours. @param {State} state */
const now = ({ answers: [main], fields }) => (main?.answer === "colour_code" ? (main.readings.length ? main.verdict.says : main.verdict.word) : coloursWaiting(fields.colours));

/** @param {State} state @param {Verbs} on */
export const coloursQuestion = (state, on) => {
  const fields = state.fields.colours;
  const { code, colours, at } = drawn(fields);
  const wrong = fault("colours", state.answers);
  const blank = (/** @type {"colours" | "measured"} */ name) => ({ name, label: SAY[name], fields, on, fault: wrong });
  const paint = (/** @type {string} */ colour) => {
    const next = colours.map((one, mark) => (mark === at ? colour : one));
    // On to the next mark that is not told; the last one stays to be corrected.
    const after = [...next.keys()].map((step) => (at + 1 + step) % next.length).find((mark) => next[mark] === UNTOLD) ?? at;
    on.set({ colours: next.join(" "), marks: String(next.length), at: String(after) });
  };
  const resize = (/** @type {string} */ marks) => {
    const next = Array.from({ length: Number(marks) }, (_, mark) => colours[mark] ?? UNTOLD);
    on.set({ marks, at: "", colours: next.every((one) => one === UNTOLD) ? "" : next.join(" ") });
  };
  const counts = [...MARKS[code]].sort();
  return html`
    ${pick("code", SAY.code, SAY.codes, code, (code) => on.set({ code, marks: "", colours: "", at: "" }))}
    ${choice("marks", SAY.marks, Object.fromEntries(counts.map((count) => [count, SAY.count(code, count)])), String(colours.length), resize)}
    <p class="help">${SAY.hold[code]}</p>
    ${old(code, colours, at, Boolean(fields.wide_first), (mark) => on.set({ at: String(mark) }))}
    <p class="now" aria-hidden="true">${now(state)}</p>
    <fieldset class="palette">
      <legend>${SAY.colourOf(SAY.mark(code, at))}</legend>
      <div>
        ${SAY.names.map((name) => html`<button type="button" aria-pressed=${colours[at] === name} @click=${() => paint(name)}>${swatch(name)}<span>${name}</span></button>`)}
      </div>
    </fieldset>
    ${text({ ...blank("colours"), placeholder: SAY.coloursPlaceholder })}
    ${foot(further(SAY.tell, SAY.tellWhy, state.telling || Boolean(fields.measured || fields.wide_first), on, html`
      ${text({ ...blank("measured"), unit: onResistor(code) ? UNITS.ohm : UNITS.pf, help: onResistor(code) ? SAY.measuredHelp : html`${SAY.measuredHelp} ${WORDS.capacitor.measuredHelp}` })}
      ${code === "resistor_bands" ? choice("wide_first", SAY.wide_first, SAY.wideWays, fields.wide_first ?? "", (wide) => on.choose("wide_first", wide)) : nothing}
    `), on, Object.keys(fields).some((name) => name !== "at" && fields[name] && !LASTING.includes(name)))}
  `;
};

/** What is waited for: the colour of the mark that is not told yet. @param {Fields} fields */
export const coloursWaiting = (fields) => {
  const { code, colours, at } = drawn(fields);
  return colours.every((one) => one === UNTOLD) ? WORDS.waiting.colours : SAY.left(SAY.mark(code, at));
};

/** Goes on with a reading to what replaces the part. @param {State} state @param {Verbs} on */
const replacer = ({ fields: { colours, capacitor } }, on) => (/** @type {ColourReading} */ { says, kind }) => {
  const { measured = "" } = colours;
  if (onResistor(codeOf(colours))) return on.go("resistor", { marking: says, measured });
  const { line_v = "", line_hz = "" } = capacitor;
  return on.go("capacitor", { marking: says, kind: kind ?? "", measured, line_v, line_hz });
};

/** @param {ColourReading} one @param {boolean} first @param {(one: ColourReading) => void} replace */
const reading = (one, first, replace) => {
  const { says, layout, marks, notes } = one;
  return html`<li>
    <b>${says}</b>
    <p class="aside">${layout}</p>
    ${notes.map((note) => html`<p>${note}</p>`)}
    <ul class="spelled" aria-label=${SAY.marksSay}>
      ${marks.map((mark) => html`<li>${swatch(mark.split(":")[0])}<span>${mark}</span></li>`)}
    </ul>
    <p><button type="button" class="act ${first ? "do" : ""}" aria-label=${SAY.replaces(says)} @click=${() => replace(one)}>${SAY.replace}</button></p>
  </li>`;
};

/** What it was if a mark has faded. @param {ColourReading} one @param {(one: ColourReading) => void} replace */
const faded = (one, replace) => html`<li>
  <button type="button" class="candidate" @click=${() => replace(one)}>
    <b>${one.says}</b><span class="says">${one.notes[0]}</span><span class="also">${one.layout}</span>
  </button>
</li>`;

/** @param {import("../answers").ColourCodeAnswer} answer @param {State} state @param {Verbs} on */
export const colours = (answer, state, on) => {
  const { readings, impossible, measure } = answer;
  const replace = replacer(state, on);
  const lines = (/** @type {string[]} */ all) => html`<ul class="lines">${all.map((says) => html`<li>${says}</li>`)}</ul>`;
  return html`
    ${verdict(answer.verdict, "")} ${readings.length ? offer(answer.verdict, SAY.tell, () => on.tell(true, "measured")) : nothing}
    ${impossible.length && !readings.length ? html`<section><h3>${SAY.impossible}</h3>${lines(impossible)}</section>` : nothing}
    ${readings.length
      ? html`<section><h3>${readings.length > 1 ? SAY.several : SAY.readings}</h3>
          <ol class="colour-readings">${readings.map((one, at) => reading(one, at === 0, replace))}</ol></section>`
      : nothing}
    ${measure.length ? html`<section><h3>${SAY.measure}</h3>${lines(measure)}</section>` : nothing}
    ${answer.faded.length
      ? html`<section><h3>${SAY.faded}</h3><p>${SAY.fadedWhy}</p>
          <ul class="candidates">${answer.faded.map((one) => faded(one, replace))}</ul></section>`
      : nothing}
    ${impossible.length && readings.length ? folded(SAY.impossible, lines(impossible)) : nothing}
  `;
};
