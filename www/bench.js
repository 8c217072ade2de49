// The core in its WebAssembly instance: asks it, keeps it alive, and puts the user's files back when it has to start anew.

import init, { Bench } from "./stand_in.js";

/** @typedef {import("./answers").Question} Question */
/** @typedef {import("./answers").Answer} Answer */
/** @typedef {"tubes" | "names"} Table */
/** @typedef {{ name: string, table: Table, csv: string }} BookFile a file of the user, laid over the shipped book */
/** @typedef {({ answer: "loaded" } & import("./answers").LoadReport) | ({ answer: "error" } & import("./answers").ErrorAnswer)} Report */

/** @type {typeof Bench} */
let kind = Bench;
/** @type {Bench | null} */
let bench = null;
/** @type {BookFile[]} */
let laid = [];
let starts = 0;

/**
 * A fresh instance with nothing but the shipped book. A module address is instantiated once, so after a trap the same module is
 * taken under a further address.
 */
const begin = async () => {
  starts += 1;
  if (starts === 1) {
    await init();
  } else {
    const again = /** @type {typeof import("./stand_in.js")} */ (await import(`./stand_in.js?start=${starts}`));
    await again.default({ module_or_path: new URL("./stand_in_bg.wasm", import.meta.url) });
    kind = again.Bench;
  }
  bench = new kind();
};

/** Starts the core with the user's files. @param {BookFile[]} files @returns {Promise<Report[]>} one report a file */
export const start = async (files) => {
  if (starts === 0) await begin();
  else bench = new kind();
  laid = [];
  return files.map(load);
};

/** Lays a file over the book. @param {BookFile} file @returns {Report} */
export const load = (file) => {
  if (!bench) throw new Error("the core is not started");
  const report = /** @type {Report} */ (JSON.parse(bench.load(file.table, file.csv)));
  if (report.answer === "loaded") laid = [...laid, file];
  return report;
};

/** A table of the book as CSV. @param {Table} table */
export const save = (table) => bench?.export(table) ?? "";

/** Whether the core can be asked. */
export const ready = () => bench !== null;

/** Asks the core. Throws when the instance has trapped. @param {Question} question @returns {Answer} */
export const ask = (question) => {
  if (!bench) throw new Error("the core is not started");
  return /** @type {Answer} */ (JSON.parse(bench.ask(JSON.stringify(question))));
};

/** After a trap: a new instance, and the user's files back in it. */
export const recover = async () => {
  const files = laid;
  bench = null;
  await begin();
  laid = [];
  for (const file of files) load(file);
};
