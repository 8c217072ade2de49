// The user's stock: a table of the book like the others, changed row by row from its own screen.

import { line } from "./csv.js";
import { SETS } from "./words_sets.js";

/** @typedef {import("./answers").StockRow} StockRow */
/** @typedef {import("./state.js").State} State */

/** Columns a person fills in, in the order of the table. */
export const COLUMNS = /** @type {const} */ (["marking", "count", "place", "tested", "note"]);

/**
 * @typedef {object} Host what the element lends
 * @property {import("./bench.js").Core} bench
 * @property {() => State} state
 * @property {(change: Partial<State>) => void} set
 * @property {(work: () => Promise<string>) => void} change changes the book, keeps it and offers the way back
 * @property {(fields: import("./sheets.js").Fields) => void} go
 */

/** @param {Record<(typeof COLUMNS)[number], string>} row */
const csv = (row) => [COLUMNS, COLUMNS.map((column) => row[column].trim().replace(/\s+/g, " "))].map(line).join("");

/** @param {Host} host */
export const stockVerbs = ({ bench, state, set, change, go }) => ({
  /** Puts what is filled in on the shelf; a row that is edited gives way to it. */
  save: () => {
    const { key = "", ...form } = state().fields.stock;
    const row = { marking: form.marking ?? "", count: form.count?.trim() || "1", place: form.place ?? "", tested: form.tested ?? "", note: form.note ?? "" };
    if (!row.marking.trim()) return;
    const report = bench.check(csv(row), "stock");
    const [fault] = report.answer === "error" ? [] : report.faults;
    if (report.answer === "error" || fault) {
      return set({ notice: { says: report.answer === "error" ? report.says : SETS.stock.fault(fault.column, fault.found, fault.accepted) } });
    }
    change(async () => {
      if (key) bench.forget("stock", key);
      bench.load({ table: "stock", csv: csv(row) });
      go({ find: form.find ?? "" });
      return SETS.stock.saved(row.marking.trim());
    });
  },
  /** Some more or fewer. @param {StockRow} row @param {number} by */
  count: (row, by) => {
    const count = Math.max(0, row.count + by);
    change(async () => {
      bench.load({ table: "stock", csv: csv({ ...row, count: String(count) }) });
      return SETS.stock.counted(row.marking, count);
    });
  },
  /** Takes a row into the blanks. @param {StockRow} row */
  edit: ({ key, marking, count, place, tested, note }) =>
    go({ ...state().fields.stock, key, marking, count: String(count), place, tested, note }),
  /** @param {StockRow} row */
  remove: ({ key, marking }) =>
    change(async () => {
      bench.forget("stock", key);
      return SETS.stock.removed(marking);
    }),
});
