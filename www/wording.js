// Which of its two wordings the page speaks, American or British, and that everything it says comes in it. The views read their words
// as they draw; the element says in which wording before it draws or asks.

import { ukAnswer, ukWords } from "./uk.js";

/** @typedef {"us" | "uk"} Wording */

/** @type {Wording} */
let now = "us";

/** Says in which wording everything is from here on. @param {Wording} wording */
export const speak = (wording) => void (now = wording);
/** In which wording everything is. */
export const spoken = () => now;

/** One of the two, else nothing. @param {unknown} text @returns {Wording | ""} */
export const wordingOf = (text) => (text === "us" || text === "uk" ? text : "");

/** What somebody with such a browser is used to. @param {string} [language] as in `navigator.language` */
export const usual = (language = "") => /** @type {Wording} */ (/^en-(GB|IE|AU|NZ|ZA|IN)\b/i.test(language) ? "uk" : "us");

/** Gives words their other wording: from now on they read as the page speaks. What is to be typed (`fields`) is left alone. @param {object} words */
export const inBoth = (words) => {
  for (const [name, us] of Object.entries(words)) {
    if (name === "fields") continue;
    if (us && typeof us === "object") {
      inBoth(us);
      continue;
    }
    /** @type {unknown} */
    let uk;
    Object.defineProperty(words, name, { enumerable: true, get: () => (now === "uk" ? (uk ??= ukWords(us)) : us) });
  }
};

/** What a question says in the user's own words. @param {unknown} question @returns {string[]} */
const typedIn = (question) => {
  if (typeof question === "string") return [question];
  if (!question || typeof question !== "object") return [];
  return Object.entries(question).flatMap(([name, one]) => (CHOSEN.has(name) ? [] : typedIn(one)));
};
/** Fields of a question that are chosen from a few words, not written. */
const CHOSEN = new Set(["ask", "kind", "role", "topology", "code", "function", "base", "least_grade"]);

/** An answer of the core in the wording that is spoken. @template T @param {T} answer @param {unknown} question */
export const said = (answer, question) => (now === "uk" ? ukAnswer(answer, typedIn(question)) : answer);
