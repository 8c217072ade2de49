// What the core could not read, in the words of the page: which blank, what was found, what is accepted.

import { fieldOf } from "../questions.js";
import { WORDS } from "../words.js";

/** @typedef {import("../answers").Answer} Answer */
/** @typedef {import("../answers").ErrorAnswer} ErrorAnswer */
/** @typedef {import("../sheets.js").Sheet} Sheet */

/** The label of a blank as it stands on the page. @param {Sheet} sheet @param {string} field */
const label = (sheet, field) => {
  const say = /** @type {Record<string, unknown>} */ (WORDS[sheet]);
  return typeof say[field] === "string" ? /** @type {string} */ (say[field]) : field;
};

/** @param {Sheet} sheet @param {Answer[]} answers @returns {{ field: string, says: string } | null} */
export const fault = (sheet, answers) => {
  const wrong = answers.find((answer) => answer.answer === "error");
  if (wrong?.answer !== "error") return null;
  const field = fieldOf(sheet, wrong.field);
  // A type the book lacks the core says best itself, with its near names.
  return { field, says: wrong.near ? wrong.says : WORDS.error.says(label(sheet, field), wrong.found, wrong.accepted) };
};

/** @param {ErrorAnswer} error @param {Sheet} [sheet] @returns {import("../answers").Verdict} */
export const faultVerdict = (error, sheet = "swap") => ({
  mark: "unknown",
  word: error.near ? WORDS.error.notInBook : WORDS.error.word,
  says: fault(sheet, [{ answer: "error", ...error }])?.says ?? error.says,
});
