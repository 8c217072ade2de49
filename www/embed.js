// What the page around <stand-in> has to do with it: the attributes it reads, the events it sends, and which element of a page may write the
// page's address. README.md tells all of it to those who embed.

import * as address from "./address.js";
import { SHEETS } from "./sheets.js";

/** @typedef {import("./address.js").Where} Where */
/** @typedef {import("./answers").Question} Question */
/** @typedef {import("./answers").Answer} Answer */
/** @typedef {{ question: Question, answer: Answer, place: string }} Answered what was asked and answered, and where it stands: what `open` and `place` take */
/** @typedef {{ what: "core" | "trap" | "storage", says: string }} Trouble what did not work: starting the core, one calculation, or keeping the book */

/** Attributes that act when they change; `address` and `storage` are read when the element comes into the page. */
export const OBSERVED = ["theme", "place", "label", "words"];

/** @param {string | null} text @returns {"light" | "dark" | null} */
export const themeOf = (text) => (text === "light" || text === "dark" ? text : null);

/** Nothing is kept and nothing that was kept is read. @param {Element} element */
export const keepsNothing = (element) => element.getAttribute("storage") === "off";

/** @type {Element | null} */
let owner = null;

/**
 * The address of a page belongs to the page: an element writes it and follows it only when it is told to, and of several only the first.
 * @param {Element} element
 */
export const ownAddress = (element) => {
  if (element.getAttribute("address") !== "on") return false;
  owner ??= element;
  if (owner !== element) console.warn('another <stand-in address="on"> has the address of this page already');
  return owner === element;
};

/** @param {Element} element */
export const giveAddressBack = (element) => {
  if (owner === element) owner = null;
};

/** The place of a state, as `open` and `place` take it. @param {Where} where */
export const placeOf = (where) => address.write(where).slice(1);

/**
 * Where a place is: `tube`, `supply/heaters`, with or without what is filled in: `tube?set=12SK7`. Null for one that is not.
 * @param {string | null} place
 * @param {Record<string, string>} [fields] laid over those the place names
 * @returns {{ where: Where, filled: boolean } | null}
 */
export const find = (place, fields) => {
  const where = place === null ? null : address.read(`#${place.replace(/^#/, "")}`);
  if (!where || !place) return null;
  const over = fields && where.screen !== "about" ? address.read(address.write({ screen: where.screen, fields: { ...where.fields, ...fields } })) : where;
  return over && { where: over, filled: fields !== undefined || place.includes("?") };
};

/** Every place, to tell somebody who named another. */
export const places = () => [...SHEETS.map((screen) => placeOf({ screen, fields: {} })), "about"];

/**
 * Tells the page around. In a moment of its own, so that whoever listens finds the element as it is drawn, and may use it.
 * @template T
 * @param {Element} element
 * @param {"ready" | "answer" | "error"} name
 * @param {T} detail
 */
export const tell = (element, name, detail) =>
  queueMicrotask(() => element.dispatchEvent(new CustomEvent(`stand-in-${name}`, { detail, bubbles: true, composed: true })));
