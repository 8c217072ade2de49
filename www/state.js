// What the page knows at a moment; the views draw nothing that does not stand here.

import { blank } from "./sheets.js";

/** @typedef {import("./answers").Answer} Answer */
/** @typedef {import("./address.js").Screen} Screen */
/** @typedef {import("./bench.js").BookFile} BookFile */
/** @typedef {import("./bench.js").Report} Report */
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
 * @property {{ file: BookFile, report: Report }[]} files the user's files with what came of them
 * @property {string} reading a file that is being read now
 * @property {Notice | null} notice
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
  files: [],
  reading: "",
  notice: null,
  offline: false,
});
