// Rows of a form as CSV for the core to read. What a cell means only the core knows.

/** @typedef {import("./answers").RowAnswer} RowAnswer */
/** @typedef {import("./answers").ColumnView} ColumnView */
/** @typedef {import("./answers").FaultReport} FaultReport */
/** @typedef {Record<string, string>} Draft cells that were typed over and not saved yet, by row and column: "0.heater_v" */
/** @typedef {{ name: string, column: ColumnView, text: string, was: string, shipped?: string }} Cell */

/** The rows of a form, with what was typed over them; rows that were added in the form come last. @param {RowAnswer} answer @param {Draft} draft @returns {Cell[][]} */
export const rowsOf = ({ type, columns, rows }, draft) => {
  const count = Math.max(rows.length, ...Object.keys(draft).map((name) => parseInt(name, 10) + 1));
  return Array.from({ length: count }, (_, at) => {
    const row = rows[at];
    const twin = row?.from === "shipped" || row?.cells.some(({ shipped }) => shipped !== undefined);
    return columns.map((column, place) => {
      const name = `${at}.${column.column}`;
      const cell = row?.cells[place];
      const was = cell?.text ?? (column.column === "type" ? type : "");
      return { name, column, was, text: draft[name] ?? was, shipped: twin ? cell?.shipped ?? cell?.text : undefined };
    });
  });
};

/** Whether a cell is other than it was in the book. @param {Cell} cell */
export const changed = ({ text, was }) => text.trim() !== was;

/** @param {string} text */
const quote = (text) => `"${text.replaceAll('"', '""')}"`;
/** One line of a table. @param {readonly string[]} cells */
export const line = (cells) => `${cells.map(quote).join(",")}\n`;
/** @param {Cell[][]} rows @param {(cell: Cell) => boolean} wanted */
const write = (rows, wanted) => {
  const places = (rows[0] ?? []).flatMap(({ column }, place) =>
    column.column === "type" || column.column === "unit" || rows.some((row) => wanted(row[place])) ? place : []);
  // One line a row, so that the line of a fault says which row it is in.
  return [places.map((place) => rows[0][place].column.column), ...rows.map((row) => places.map((place) => row[place].text.trim().replace(/\s+/g, " ")))]
    .map(line).join("");
};

/** All of the rows, to have them looked at. @param {Cell[][]} rows */
export const whole = (rows) => write(rows, () => true);
/** What was changed, to be laid over the book; empty when nothing was. Of a new type all rows go in. @param {Cell[][]} rows @param {boolean} fresh */
export const changes = (rows, fresh) => {
  const over = rows.filter((row) => fresh || row.some(changed));
  return over.length ? write(over, changed) : "";
};
/** The cell a fault is about. @param {FaultReport} fault */
export const cellOf = ({ line, column }) => `${line - 2}.${column}`;
