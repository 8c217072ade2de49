// What could this one do for me: a tube in hand, held against the types that are wanted or against the whole book.

import { html, nothing } from "../vendor/lit-html.js";
import { LASTING } from "../sheets.js";
import { WORDS } from "../words.js";
import { ranking } from "./candidates.js";
import { fault, faultVerdict, notInBook } from "./fault.js";
import { choice, figure, foot, text, type } from "./fields.js";
import { lost, missed, names, readAs } from "./near.js";
import { onward } from "./onward.js";
import { tubeSheet } from "./tube_sheet.js";
import { trouble, verdict } from "./verdict.js";
import { welcome } from "./welcome.js";

/** @typedef {import("../state.js").State} State */
/** @typedef {import("../stand-in.js").Verbs} Verbs */

const { serves: SAY, swap } = WORDS;

/** @param {State} state @param {Verbs} on */
export const servesQuestion = (state, on) => {
  const fields = state.fields.serves;
  const blank = { fields, on, fault: fault("serves", state.answers) };
  return html`
    ${type({ ...blank, name: "have", label: SAY.have })}
    ${text({ ...blank, name: "wanted", label: SAY.wanted, placeholder: SAY.wantedPlaceholder, help: fields.have ? "" : SAY.wantedHelp, wide: true })}
    ${choice("heaters", SAY.heaters, swap.ways, fields.heaters ?? "", (value) => on.choose("heaters", value))}
    ${foot(fields.heaters === "series" ? figure({ ...blank, name: "string_a", label: SAY.string_a, unit: WORDS.units.a }) : nothing, on, Object.keys(fields).some((name) => fields[name] && !LASTING.includes(name)))}
  `;
};

/** @param {State} state @param {Verbs} on */
export const servesAnswer = (state, on) => {
  const out = trouble(state);
  if (out) return verdict(out, "");
  const fields = state.fields.serves;
  const { have, heaters = "", string_a = "" } = fields;
  const [main] = state.answers;
  if (!main) return html`${verdict(null, state.core === "starting" ? WORDS.starting : WORDS.waiting.serves)} ${welcome(state, on)}`;
  if (main.answer === "error") {
    return html`${verdict(faultVerdict(main, "serves"), "")} ${names(main.near ?? [], (name) => on.take({ have: name }))}
      ${notInBook(main) ? lost(have, on) : nothing}`;
  }
  if (main.answer !== "serves") return nothing;
  const { candidate, ranked, not_found } = main;
  return html`
    ${verdict(main.verdict, "")} ${readAs(have, candidate.type)} ${missed(not_found, on)}
    ${ranked.length
      ? html`<section><h3>${SAY.title(candidate.type)}</h3>${ranking(ranked, (set) => on.go("swap", { set, have: candidate.type, heaters, string_a }))}</section>`
      : nothing}
    ${onward([
      [swap.ownPage(candidate.type), () => on.own(candidate.type)],
      [swap.itsRow, () => on.go("row", { type: candidate.type })],
    ])}
    ${tubeSheet(candidate, on)}
  `;
};
