// The core in a WebAssembly instance of its own: asks it, keeps it alive, and puts the user's rows back when it has to start anew.

import { fresh } from "./core.js";

/** @typedef {import("./stand_in.js").Bench} Bench */
/** @typedef {import("./answers").Question} Question */
/** @typedef {import("./answers").Answer} Answer */
/** @typedef {"tubes" | "names" | "capacitors" | "resistors" | "stock"} Table */
/** @typedef {{ table: Table | "", csv: string }} Part rows to be laid over a table; without its name where their columns are to tell */
/** @typedef {Record<Table, string>} Own the user's rows, each table as CSV */
/** @typedef {import("./answers").LoadReport} LoadReport */
/** @typedef {({ answer: "loaded" | "preview" } & LoadReport) | ({ answer: "error" } & import("./answers").ErrorAnswer)} Report */
/** @typedef {ReturnType<typeof core>} Core */
/** @typedef {(done: number) => boolean | void} Tell told how much is done, from 0 to 1; `false` stops it */

/** Tubes first: names point at them. @type {Table[]} */
const TABLES = ["tubes", "names", "capacitors", "resistors", "stock"];
/** How long the core may be busy with a file before the page has its turn, milliseconds: within a frame. */
const TURN_MS = 12;

/** @param {string} text @returns {Report} */
const read = (text) => JSON.parse(text);

/** Goes on with the file that was begun, with a pause for the page after every turn. @param {Bench} bench @param {Tell} tell @returns {Promise<boolean>} whether it was not stopped */
const run = async (bench, tell) => {
  for (let rows = 100, done = 0; ; ) {
    // Asked before every turn: whoever made the instance give way to another has said stop by then, and it is gone.
    if (tell(done) === false) return false;
    if (done >= 1) return true;
    const from = performance.now();
    done = bench.load_step(rows);
    rows = Math.min(1000, Math.max(20, Math.round((rows * TURN_MS) / (performance.now() - from + 0.01))));
    await new Promise((go) => setTimeout(go));
  }
};

/** Rows kept by an earlier version may lack a table. @param {Partial<Own>} own @returns {Part[]} */
export const parts = (own) => TABLES.map((table) => ({ table, csv: own[table] ?? "" }));

/** A core for one element: what happens in it, happens in no other. */
export const core = () => {
  /** @type {import("./core.js").Kind | null} */
  let kind = null;
  /** @type {Bench | null} */
  let bench = null;
  /** The shipped book alone, to look at a row without a copy of a large book. @type {Bench | null} */
  let checker = null;
  /** @type {Own} */
  let own = { tubes: "", names: "", capacitors: "", resistors: "", stock: "" };
  /** Under way after a trap. @type {Promise<void> | null} */
  let recovering = null;

  const now = () => {
    if (!bench) throw new Error("the core is not started");
    return bench;
  };

  const renew = () => {
    for (const table of TABLES) own = { ...own, [table]: now().export(`own_${table}`) };
  };

  /** Makes the book anew: the shipped one, and over it these. Until that is done the one before answers. @param {Part[]} parts @param {Tell} [tell] */
  const start = async (parts, tell = () => {}) => {
    kind ??= await fresh();
    const made = new kind();
    for (const { table, csv } of parts) {
      if (!csv) continue;
      made.load_begin(table, csv);
      await run(made, tell);
      made.load_finish();
    }
    bench?.free();
    bench = made;
    renew();
  };

  /** Asks the core. Throws when the instance has trapped. @param {Question} question @returns {Answer} */
  const ask = (question) => /** @type {Answer} */ (JSON.parse(now().ask(JSON.stringify(question))));

  /** After a trap: a new instance, and the user's rows back in it. */
  const recover = () =>
    (recovering ??= (async () => {
      kind = bench = checker = null;
      await start(parts(own));
    })().finally(() => (recovering = null)));

  return {
    start,
    ask,
    recover,

    /** The user's rows as they are now. */
    rows: () => own,

    /** Asks the core, in a new instance should it trap or have trapped. @param {Question} question @returns {Promise<Answer>} */
    async answer(question) {
      try {
        return ask(question);
      } catch {
        await recover();
      }
      try {
        return ask(question);
      } catch (reason) {
        await recover();
        throw reason;
      }
    },

    /** Begins to read a file; the book stays as it is until `finish`. @param {Part} part @param {Tell} tell @returns {Promise<Report | null>} what it would do; null when it was stopped */
    async look({ table, csv }, tell) {
      const reading = now();
      reading.load_begin(table, csv);
      const whole = await run(reading, tell);
      return whole && reading === bench ? read(reading.load_preview()) : null;
    },

    /** Drops the file that was begun: beginning something that is no table holds nothing. */
    drop: () => bench?.load_begin("nothing", ""),

    /** Puts the file that was begun in place. @returns {Report} */
    finish() {
      const report = read(now().load_finish());
      renew();
      return report;
    },

    /** Lays a few rows over the book. @param {Part} part @returns {Report} */
    load({ table, csv }) {
      const report = read(now().load(table, csv));
      renew();
      return report;
    },

    /** Takes the user's rows of a type or name out of the book, or by its key a row of the stock. @param {string} table @param {string} name */
    forget(table, name) {
      now().forget(table, name);
      renew();
    },

    /** What is wrong in a row, or does not agree. @param {string} csv @param {Table} [table] @returns {Report} */
    check(csv, table = "tubes") {
      if (!kind) throw new Error("the core is not started");
      checker ??= new kind();
      return read(checker.preview(table, csv));
    },

    /** A table of the book as CSV. @param {string} table */
    save: (table) => now().export(table),
  };
};
