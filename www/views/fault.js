// What the core could not read, in the words of the page: which blank, what was found, what is accepted.

import { fieldOf } from "../questions.js";
import { WORDS } from "../words.js";

/** @typedef {import("../answers").Answer} Answer */
/** @typedef {import("../answers").ErrorAnswer} ErrorAnswer */
/** @typedef {import("../sheets.js").Sheet} Sheet */

/** The label of a blank as it stands on the page. @param {Sheet} sheet @param {string} field */
const label = (sheet, field) => {
  const say = /** @type {Record<string, Record<string, unknown> | undefined>} */ (/** @type {unknown} */ (WORDS))[sheet];
  return typeof say?.[field] === "string" ? /** @type {string} */ (say[field]) : field;
};

/** What was typed, which the core sets between backticks, in the quotation marks people use. @param {string} text */
export const quoted = (text) => text.replace(/`([^`]*)`/g, "“$1”");

/** Whether an error is that of a type the book lacks. @param {ErrorAnswer} error */
export const notInBook = ({ near, says }) => near !== undefined || says.includes("is not in the book");

/**
 * The blank that could not be read, and what to say there. Of a type the book lacks the verdict says enough: while one is still typing
 * it, a line that comes and goes under the blank would push everything about.
 * @param {Sheet} sheet
 * @param {Answer[]} answers
 * @returns {{ field: string, says: string } | null}
 */
export const fault = (sheet, answers) => {
  const wrong = answers.find((answer) => answer.answer === "error");
  if (wrong?.answer !== "error") return null;
  const field = fieldOf(sheet, wrong.field);
  return { field, says: notInBook(wrong) ? "" : WORDS.error.says(label(sheet, field), wrong.found, wrong.accepted) };
};

/** @param {ErrorAnswer} error @param {Sheet} [sheet] @returns {import("../answers").Verdict} */
export const faultVerdict = (error, sheet = "swap") => ({
  mark: "unknown",
  word: notInBook(error) ? WORDS.error.notInBook : error.found ? WORDS.error.word : WORDS.error.missing,
  says: fault(sheet, [{ answer: "error", ...error }])?.says || error.says,
});
