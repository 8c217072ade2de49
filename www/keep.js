// What stays on this device: the user's own rows in IndexedDB, and a few small choices in localStorage. Storage may be refused
// (private windows, full disks); then the page works without.

import { openDB } from "./vendor/idb.js";

/** @typedef {import("./bench.js").Own} Own */
/** @typedef {import("./bench.js").Part} Part */
/** @typedef {import("./sheets.js").Sheet} Sheet */
/** @typedef {import("./sheets.js").Fields} Fields */

/**
 * @typedef {object} Kept
 * @property {"device" | "light" | "dark"} theme
 * @property {import("./wording.js").Wording | ""} words chosen; empty: as the device's language has it
 * @property {boolean} asked whether a question of one's own was ever put
 * @property {Sheet} sheet the question last open
 * @property {Record<Sheet, Fields>} fields what was last filled in
 * @property {Record<string, import("./csv.js").Draft>} drafts rows that are being edited, by type
 */

const KEY = "stand-in";
/** Files of the user as an earlier version kept them; read once, never written. */
const FILES = "files";
const BOOK = "book";

/** Elements of one page keep what is filled in apart by their ids; the book is one. @param {string} id */
const place = (id) => (id ? `${KEY}#${id}` : KEY);

/** @param {string} id of the element @returns {Partial<Kept>} */
export const recall = (id) => {
  try {
    const kept = JSON.parse(localStorage.getItem(place(id)) ?? "{}");
    return typeof kept === "object" && kept !== null ? kept : {};
  } catch {
    return {};
  }
};

/** @param {Kept} kept @param {string} id of the element @returns {boolean} whether it could be kept: if not, the next visit starts empty */
export const remember = (kept, id) => {
  try {
    localStorage.setItem(place(id), JSON.stringify(kept));
    return true;
  } catch {
    return false;
  }
};

/** @template T @param {(database: import("./vendor/idb.js").Database) => Promise<T>} work */
const within = async (work) => {
  const database = await openDB(KEY, 2, { upgrade: (database) => void database.createObjectStore(BOOK) });
  try {
    return await work(database);
  } finally {
    database.close();
  }
};

/**
 * The user's rows. Where only files of an earlier version are kept, those, in the order they were laid over the book; they stay where
 * they are, so that nothing is lost should the book made of them not be written.
 * @returns {Promise<{ own?: Own, files: Part[] }>}
 */
export const book = () =>
  within(async (database) => {
    const own = /** @type {Own | undefined} */ (await database.transaction(BOOK, "readonly").store.get(BOOK));
    const files = !own && database.objectStoreNames.contains(FILES) ? await database.transaction(FILES, "readonly").store.getAll() : [];
    return { own, files: /** @type {Part[]} */ (files) };
  });

/** Keeps the user's rows: one record, so that after a crash either the old book is there or the new one. @param {Own} own */
export const keepBook = async (own) => {
  await within(async (database) => {
    const { store, done } = database.transaction(BOOK, "readwrite", { durability: "strict" });
    await Promise.all([store.put(own, BOOK), done]);
  });
  // Asks the browser not to clear the rows away when space runs short; it may say no.
  await navigator.storage?.persist?.().catch(() => false);
};
