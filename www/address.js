// Every state of the page has an address: the part after the # says which question is open and what was filled in, so that reload,
// bookmark and Back return to it. Pure: text to state and back.

import { FIELDS, SHEETS, placeOf } from "./sheets.js";

/** @typedef {import("./sheets.js").Sheet} Sheet */
/** @typedef {import("./sheets.js").Fields} Fields */
/** @typedef {Sheet | "about"} Screen what is shown: a question, or what the page is */
/** @typedef {{ screen: Screen, fields: Fields }} Where */

/** The longest text taken over from an address: a parts list is the longest there is. */
const LONGEST = 10_000;

/** @param {Sheet} sheet */
const path = (sheet) => {
  const place = placeOf(sheet);
  // The question a place is known for has the address of the place.
  if (sheet === "swap" || sheet === "book" || sheet === "jobs") return place;
  // A sheet of a set, not one of the page.
  return `${place}/${sheet === "job" ? "sheet" : sheet}`;
};

/** The address of a state. @param {Where} where @returns {string} */
export const write = ({ screen, fields }) => {
  if (screen === "about") return `#${screen}`;
  const query = new URLSearchParams();
  for (const name of FIELDS[screen]) if (fields[name]) query.set(name, fields[name]);
  const filled = query.toString();
  return `#${path(screen)}${filled && `?${filled}`}`;
};

/** The state an address stands for; null for one that is not ours. @param {string} hash @returns {Where | null} */
export const read = (hash) => {
  const [where, query = ""] = hash.replace(/^#/, "").split(/\?(.*)/s, 2);
  if (where === "about") return { screen: where, fields: {} };
  const screen = SHEETS.find((sheet) => path(sheet) === where || placeOf(sheet) === where);
  if (!screen) return null;
  /** @type {Fields} */
  const fields = {};
  for (const [name, text] of new URLSearchParams(query)) {
    if (FIELDS[screen].includes(name) && text) fields[name] = text.slice(0, LONGEST);
  }
  return { screen, fields };
};
