// What the page knows at a moment; the views draw nothing that does not stand here.

import { begin as beginSets } from "./jobs.js";
import { blank } from "./sheets.js";

/** @typedef {import("./answers").Answer} Answer */
/** @typedef {import("./address.js").Screen} Screen */
/** @typedef {import("./bench.js").Report} Report */
/** @typedef {import("./bench.js").Table} Table */
/** @typedef {import("./answers").RowAnswer} RowAnswer */
/** @typedef {import("./csv.js").Draft} Draft */
/** @typedef {import("./keep.js").Kept} Kept */
/** @typedef {import("./sheets.js").Fields} Fields */
/** @typedef {import("./sheets.js").Sheet} Sheet */

/**
 * @typedef {object} Notice a quiet line above the bar
 * @property {string} says
 * @property {string} [button]
 * @property {() => void} [press]
 */

/**
 * @typedef {object} Incoming a file on its way into the book
 * @property {string} name
 * @property {Table | ""} table empty until its columns have told
 * @property {string} csv
 * @property {number} done how much of it is read, from 0 to 1
 * @property {Report | null} report what it would do, when it is read
 */

/**
 * @typedef {object} Listed
 * @property {number} tubes how many types are the user's
 * @property {number} names how many other names
 * @property {number} parts how many parts that are sold
 * @property {Item[]} shown those that fit what is looked for, not all of them when there are many
 * @property {number} more how many others fit
 */

/** @typedef {import("./answers").OwnView & { row: RowAnswer | null }} Item a type or name of the user, with what the shipped book says */

/**
 * @typedef {object} State
 * @property {Screen} screen what is shown
 * @property {Record<Sheet, Fields>} fields what is filled in, question by question
 * @property {Answer[]} answers to what is filled in on this screen; empty while too little is
 * @property {"starting" | "ready" | "trapped" | "failed"} core how the calculating part is
 * @property {string} reason why it failed
 * @property {boolean} asked whether a question of one's own was ever put: then the welcome is over
 * @property {boolean} telling whether the further facts are unfolded
 * @property {boolean} menu whether the menu is open
 * @property {Kept["theme"]} theme
 * @property {Kept["words"]} words
 * @property {Kept["words"]} givenWords by the page that the element stands in, before which the choice gives way
 * @property {RowAnswer["columns"]} columns of the book, with what they take
 * @property {Listed} own the user's rows
 * @property {Incoming | null} incoming a file that is being read or looked at
 * @property {Record<string, Draft>} drafts rows that are being edited, by type
 * @property {Report | null} foreseen what is wrong in the row that is being edited
 * @property {Notice | null} notice
 * @property {boolean} embedded whether it is a part of a page of somebody else
 * @property {string} label what tells it from others on the same page
 * @property {"on" | "refused" | "off"} storage whether the device keeps what is filled in and the user's rows
 * @property {import("./jobs.js").Sets} sets the user's sets
 * @property {boolean} offline whether the page is kept for use without a network
 */

/** Nothing asked yet. @returns {State} */
export const begin = () => ({
  screen: "swap",
  fields: blank(),
  answers: [],
  core: "starting",
  reason: "",
  asked: false,
  telling: false,
  menu: false,
  theme: "device",
  words: "",
  givenWords: "",
  columns: [],
  own: { tubes: 0, names: 0, parts: 0, shown: [], more: 0 },
  incoming: null,
  drafts: {},
  foreseen: null,
  notice: null,
  embedded: false,
  label: "",
  storage: "on",
  sets: beginSets(),
  offline: false,
});
