// How job sheets stay on this device. Each is one record in IndexedDB, written in one transaction that first looks whether another window
// was faster; what was typed since stands in localStorage, which is written at once, so that a page that is killed loses no letter.

import { fresh } from "./job.js";
import { openDB } from "./vendor/idb.js";

/**
 * @typedef {object} Job
 * @property {string} id
 * @property {number} revision how often it was written; 0 when it never was
 * @property {string} by the window that wrote it last
 * @property {number} changed when, in milliseconds since 1970
 * @property {boolean} archived
 * @property {import("./job.js").Written} sheet
 */

// A database of its own: were it a store of the one the book lies in, that one's version would rise, and a page of an earlier version,
// open in another window, could no longer write the book.
const DATABASE = "stand-in-jobs";
const JOBS = "jobs";
/** Before the window and the sheet in the key of what was typed and is not in the database yet. */
const TYPED = "stand-in-typed:";
/** Before the window in the name of the lock it holds while it lives. */
const ALIVE = "stand-in-window:";

/** @template T @param {(database: import("./vendor/idb.js").Database) => Promise<T>} work */
const within = async (work) => {
  const database = await openDB(DATABASE, 1, { upgrade: (database) => void database.createObjectStore(JOBS) });
  try {
    return await work(database);
  } finally {
    database.close();
  }
};

/** @returns {Promise<Job[]>} */
export const all = () => within(async (database) => /** @type {Job[]} */ (await database.transaction(JOBS, "readonly").store.getAll()));
/** @param {string} id @returns {Promise<Job | undefined>} */
const one = (id) => within(async (database) => /** @type {Job | undefined} */ (await database.transaction(JOBS, "readonly").store.get(id)));

/**
 * Changes a record if it is still the one that was read; else gives the one that is there now.
 * @param {Job} job with the revision that was read
 * @param {Job | null} next null takes it out
 * @returns {Promise<{ kept: Job | null } | { other: Job | null }>}
 */
const exchange = (job, next) =>
  within(async (database) => {
    const { store, done } = database.transaction(JOBS, "readwrite", { durability: "strict" });
    const there = /** @type {Job | undefined} */ (await store.get(job.id));
    if ((there?.revision ?? 0) !== job.revision) {
      await done;
      return { other: there ?? null };
    }
    await Promise.all([next ? store.put(next, job.id) : store.delete(job.id), done]);
    return { kept: next };
  });

/** One window's way to the shelf. */
export class Shelf {
  /** This window, for as long as it lives. */
  me = fresh();

  constructor() {
    // Held until the window is gone, however it goes. Only then may others take over what was typed here.
    navigator.locks?.request(ALIVE + this.me, () => new Promise(() => {})).catch(() => {});
  }

  all = all;
  one = one;
  /** @param {Job} job */
  put = (job) => exchange(job, { ...job, revision: job.revision + 1, by: this.me });
  /** @param {Job} job */
  remove = (job) => exchange(job, null);

  /** Writes down what was typed, at once. @param {Job} job @returns {boolean} whether it could be */
  type(job) {
    try {
      localStorage.setItem(this.#key(job.id), JSON.stringify({ ...job, by: this.me }));
      return true;
    } catch {
      return false;
    }
  }

  /** What was typed is in the database, or given up. @param {string} id */
  typed(id) {
    try {
      localStorage.removeItem(this.#key(id));
    } catch {
      // Then nothing stands there either.
    }
  }

  /** @param {string} id */
  #key(id) {
    return `${TYPED}${this.me}:${id}`;
  }

  /**
   * Finds what was typed in windows that are gone, now or later, and hands it over; it is forgotten once it was taken.
   * @param {(typed: Job) => Promise<boolean>} take gives whether it is safe
   * @param {AbortSignal} signal
   * @returns {Promise<void>} settled when those that are gone already are done
   */
  async left(take, signal) {
    const others = new Set(keys().flatMap((key) => (key.startsWith(TYPED + this.me) ? [] : key.slice(TYPED.length).split(":")[0])));
    const from = async (/** @type {string} */ window) => {
      for (const key of keys()) {
        if (!key.startsWith(`${TYPED}${window}:`)) continue;
        const job = parsed(localStorage.getItem(key));
        if (!job || (await take(job))) localStorage.removeItem(key);
      }
    };
    const taking = [...others].map((window) =>
      navigator.locks ? navigator.locks.request(ALIVE + window, { signal }, () => from(window)).catch(() => {}) : from(window));
    // One that lives, in another window, is waited for in the background.
    await Promise.race([Promise.all(taking), new Promise((go) => setTimeout(go, 250))]);
  }
}

/** What was typed, of all windows. @returns {string[]} */
const keys = () => {
  try {
    return Object.keys(localStorage).filter((key) => key.startsWith(TYPED));
  } catch {
    return [];
  }
};

/** @param {string | null} text @returns {Job | null} */
const parsed = (text) => {
  try {
    const job = JSON.parse(text ?? "");
    return typeof job?.id === "string" && typeof job.sheet?.name === "string" ? job : null;
  } catch {
    return null;
  }
};

/** Where nothing is to be kept: sheets live as long as the window. */
export class Nowhere {
  /** @returns {Promise<Job[]>} */
  all = async () => [];
  /** @returns {Promise<Job | undefined>} */
  one = async () => undefined;
  /** @param {Job} job @returns {ReturnType<Shelf["put"]>} */
  put = async (job) => ({ kept: { ...job, revision: job.revision + 1 } });
  /** @returns {ReturnType<Shelf["remove"]>} */
  remove = async () => ({ kept: null });
  type = () => true;
  typed() {}
  async left() {}
}
