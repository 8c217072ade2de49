// What stays on this device: the user's own files in IndexedDB, and a few small choices in localStorage. Storage may be refused
// (private windows, full disks); then the page works without.

import { openDB } from "./vendor/idb.js";

/** @typedef {import("./bench.js").BookFile} BookFile */
/** @typedef {import("./sheets.js").Sheet} Sheet */
/** @typedef {import("./sheets.js").Fields} Fields */

/**
 * @typedef {object} Kept
 * @property {"device" | "light" | "dark"} theme
 * @property {boolean} asked whether a question of one's own was ever put
 * @property {Sheet} sheet the question last open
 * @property {Record<Sheet, Fields>} fields what was last filled in
 */

const KEY = "stand-in";
const STORE = "files";

/** @returns {Partial<Kept>} */
export const recall = () => {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    return typeof kept === "object" && kept !== null ? kept : {};
  } catch {
    return {};
  }
};

/** @param {Kept} kept */
export const remember = (kept) => {
  try {
    localStorage.setItem(KEY, JSON.stringify(kept));
  } catch {
    // Refused: the next visit starts empty.
  }
};

const open = () => openDB(KEY, 1, { upgrade: (database) => void database.createObjectStore(STORE, { keyPath: "place" }) });

/** The user's files, in the order they were laid over the book. @returns {Promise<BookFile[]>} */
export const files = async () => {
  const database = await open();
  try {
    const rows = /** @type {(BookFile & { place: number })[]} */ (await database.transaction(STORE, "readonly").store.getAll());
    return rows.map(({ name, table, csv }) => ({ name, table, csv }));
  } finally {
    database.close();
  }
};

/** Keeps exactly these files. One transaction: after a crash either the old ones are there or the new. @param {BookFile[]} kept */
export const keepFiles = async (kept) => {
  const database = await open();
  try {
    const { store, done } = database.transaction(STORE, "readwrite");
    await Promise.all([store.clear(), ...kept.map((file, place) => store.put({ ...file, place })), done]);
  } finally {
    database.close();
  }
  // Asks the browser not to clear the files away when space runs short; it may say no.
  await navigator.storage?.persist?.().catch(() => false);
};
