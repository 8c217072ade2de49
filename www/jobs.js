// The user's sets: job sheets, how they change and how they are kept. Holds its own slice of the state, `sets`, and the verbs the views
// of the place Sets know beside those of the page.

import { download } from "./download.js";
import { asked, called, empty, filled, fresh, linesOf, partLine, tubeLine, written } from "./job.js";
import * as keep from "./keep_jobs.js";
import { fieldOf } from "./questions.js";
import { SETS as SAY } from "./words_sets.js";

/** @typedef {import("./answers").Answer} Answer */
/** @typedef {import("./answers").Question} Question */
/** @typedef {import("./answers").ErrorAnswer} ErrorAnswer */
/** @typedef {import("./address.js").Screen} Screen */
/** @typedef {import("./job.js").Written} Written */
/** @typedef {import("./job.js").Section} Section */
/** @typedef {import("./keep_jobs.js").Job} Job */
/** @typedef {import("./sheets.js").Fields} Fields */
/** @typedef {import("./state.js").State} State */

/**
 * @typedef {object} Sets the slice
 * @property {boolean} ready whether the shelf was looked into
 * @property {Job[]} jobs all sheets, the one changed last first
 * @property {WeakMap<Written, Line>} lines what the list says of each, as far as it was asked
 * @property {string[]} sheets ids of those the answer is about, in its order
 * @property {Map<string, Job | null>} behind sheets that another window changed since they were read here, with what stands there now
 * @property {"" | "full" | "refused"} refused why nothing can be kept on this device
 * @property {boolean} saving whether the last change is on its way
 * @property {Set<string>} open keys of lines and parts of the page that are unfolded
 * @property {{ field: string, found: string, accepted: string }[]} faults blanks of the open sheet the core could not take
 * @property {Written | null} answered the sheet the answer is about
 * @property {{ tubes: number[], parts: number[] }} places of the answered lines among those of the sheet
 * @property {Extract<Answer, { answer: "sheet_lines" }> | null} preview what was understood of pasted text
 * @property {boolean} past whether there is a step to undo
 * @property {boolean} future whether there is one to do again
 * @property {{ name: string, count: number, faults: ErrorAnswer[] } | null} brought what came of a file
 * @property {Set<string>} got what is bought already, by what the list says of it
 */

/** @typedef {{ mark: import("./answers").Mark, word: string, says: string, totals: import("./answers").SheetTotal[] }} Line */

/** @returns {Sets} */
export const begin = () => ({
  ready: false, jobs: [], lines: new WeakMap(), sheets: [], behind: new Map(), refused: "", saving: false, open: new Set(), faults: [], answered: null,
  places: { tubes: [], parts: [] }, preview: null, past: false, future: false, brought: null, got: got(),
});

/**
 * @typedef {object} Host what the element lends
 * @property {() => State} state
 * @property {(change: Partial<State>) => void} set changes the state; drawn once the work in hand is done
 * @property {(question: Question) => Answer} ask
 * @property {(screen: Screen, fields?: Fields) => void} go
 * @property {() => void} answer asks anew and draws
 * @property {(selector: string) => void} reach draws, unfolds what it lies in and gives it the focus
 * @property {(file: File) => Promise<string>} text
 * @property {() => Promise<void>} recover after a trap
 */

/** How long a change may wait until it is written, milliseconds. */
const REST_MS = 200;
/** Steps that can be undone. */
const STEPS = 200;
/** Typing in one blank that goes on after such a pause is another step, milliseconds. */
const PAUSE_MS = 2000;
const GOT = "stand-in-got";

/** Screens on which one sheet is open. @param {Screen} screen */
export const onSheet = (screen) => screen === "job" || screen === "bringup";

/**
 * Asks; a figure or word the core cannot take is left out, noted, and the rest asked again, so that one slip of the finger does not take
 * the whole answer away. What is left out counts as not known.
 * @param {Question} question @param {Host["ask"]} ask @returns {{ answer: Answer, faults: ErrorAnswer[] }}
 */
export const askWithout = (question, ask) => {
  /** @type {any} */
  const copy = structuredClone(question);
  const faults = [];
  for (;;) {
    const answer = ask(copy);
    if (answer.answer !== "error" || faults.length > 50 || !leaveOut(copy, answer.field)) return { answer, faults };
    faults.push(answer);
  }
};

/** Takes a field out of a record; false when there is none under that path. @param {any} record @param {string} path `sheet.tubes[2].state` */
const leaveOut = (record, path) => {
  const steps = path.split(/[.[\]]+/).filter(Boolean);
  const last = steps.pop();
  const holder = steps.reduce((inner, step) => inner?.[step], record);
  if (last === undefined || !steps.length || holder === null || typeof holder !== "object" || !(last in holder)) return false;
  if (Array.isArray(holder)) return false;
  delete holder[last];
  return true;
};

export class Jobs {
  #host;
  /** @type {keep.Shelf | keep.Nowhere} */
  #shelf = new keep.Nowhere();
  /** Sheets in other windows. @type {BroadcastChannel | null} */
  #others = null;
  /** Each sheet as it stands in the database. @type {Map<string, Job>} */
  #kept = new Map();
  /** @type {Map<string, ReturnType<typeof setTimeout>>} */
  #resting = new Map();
  /** Sheets that are being written. @type {Set<string>} */
  #writing = new Set();
  /** Steps back and forth in the open sheet. */
  #steps = { id: "", past: /** @type {Written[]} */ ([]), future: /** @type {Written[]} */ ([]), blank: "", at: 0 };
  #listing = false;
  /** The line that offers the way back from the last step. @type {import("./state.js").Notice | null} */
  #offer = null;

  /** @param {Host} host */
  constructor(host) {
    this.#host = host;
  }

  /** @param {AbortSignal} signal @param {boolean} keeps whether the sheets stay on the device */
  async start(signal, keeps) {
    if (keeps) {
      if (!(this.#shelf instanceof keep.Shelf)) this.#shelf = new keep.Shelf();
      this.#others = typeof BroadcastChannel === "function" ? new BroadcastChannel("stand-in-jobs") : null;
      signal.addEventListener("abort", () => this.#others?.close(), { once: true });
    }
    window.addEventListener("pagehide", () => this.flush(), { signal });
    document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && this.flush(), { signal });
    this.#others?.addEventListener("message", ({ data }) => this.#told(data), { signal });
    try {
      const jobs = await this.#shelf.all();
      // What was typed while they were read stays.
      const typed = this.#set().jobs.filter((job) => this.#dirty(job));
      for (const job of jobs) if (!typed.some(({ id }) => id === job.id)) this.#kept.set(job.id, job);
      this.#set({ jobs: latest([...typed, ...jobs.filter(({ id }) => !typed.some((one) => one.id === id))]) });
    } catch {
      // Said as soon as there is something to keep.
    }
    await this.#shelf.left((typed) => this.#found(typed), signal);
    this.#set({ ready: true });
    this.#host.answer();
  }

  /** The slice, after a change to it. @param {Partial<Sets>} [change] */
  #set(change) {
    const { sets } = this.#host.state();
    if (!change) return sets;
    const next = { ...sets, ...change };
    this.#host.set({ sets: next });
    return next;
  }

  /** @param {string} [id] of the one that is open when it is left out */
  #job(id = this.#id()) {
    return this.#set().jobs.find((job) => job.id === id);
  }

  #id() {
    const { screen, fields } = this.#host.state();
    return onSheet(screen) ? fields[/** @type {"job"} */ (screen)].id ?? "" : "";
  }

  /** Puts a sheet among the others. @param {Job} job */
  #place(job) {
    const { jobs } = this.#set();
    this.#set({ jobs: jobs.some(({ id }) => id === job.id) ? jobs.map((one) => (one.id === job.id ? job : one)) : latest([job, ...jobs]) });
  }

  /** Whether a sheet is other than in the database. @param {Job} job */
  #dirty(job) {
    const kept = this.#kept.get(job.id);
    return !kept || kept.sheet !== job.sheet || kept.archived !== job.archived;
  }

  // Keeping.

  /** A sheet is changed: shown, written down at once, and written into the database soon. @param {Job} job @param {Partial<Job>} change */
  #change(job, change) {
    const next = { ...job, ...change, changed: Date.now() };
    const safe = this.#shelf.type(next);
    this.#place(next);
    this.#set({ saving: true });
    this.#soon(next.id, safe ? REST_MS : 0);
    return next;
  }

  /** @param {string} id @param {number} ms */
  #soon(id, ms) {
    // Not put off by further typing: while one types on, it is written every so often.
    if (!this.#resting.has(id)) this.#resting.set(id, setTimeout(() => this.#write(id), ms));
  }

  /** Writes everything that waits, at once. */
  flush() {
    for (const job of this.#set().jobs) if (this.#dirty(job)) this.#write(job.id);
  }

  /** @param {string} id @returns {Promise<void>} */
  async #write(id) {
    clearTimeout(this.#resting.get(id));
    this.#resting.delete(id);
    const job = this.#job(id);
    // One that another window changed waits until it is said which is to stay.
    if (!job || !this.#dirty(job) || this.#writing.has(id) || this.#set().behind.has(id)) return;
    this.#writing.add(id);
    try {
      const done = await this.#shelf.put(job);
      if ("other" in done) this.#set({ behind: new Map(this.#set().behind).set(id, done.other) });
      else this.#wrote(job, /** @type {Job} */ (done.kept));
    } catch (reason) {
      this.#refused(reason);
    } finally {
      this.#writing.delete(id);
    }
    const now = this.#job(id);
    if (now && this.#dirty(now) && !this.#set().refused) this.#soon(id, REST_MS);
    else if (!this.#set().jobs.some((one) => this.#dirty(one))) this.#set({ saving: false });
  }

  /** @param {Job} job as it was sent @param {Job} kept */
  #wrote(job, kept) {
    const { id, revision, by } = kept;
    const now = this.#job(id);
    const same = now?.sheet === job.sheet && now.archived === job.archived;
    this.#kept.set(id, { ...kept, sheet: job.sheet });
    if (now) this.#place({ ...now, revision, by });
    // What was typed in the meantime belongs to the new revision.
    if (same || !now) this.#shelf.typed(id);
    else this.#shelf.type({ ...now, revision, by });
    if (this.#set().refused) this.#set({ refused: "" });
    this.#others?.postMessage(id);
    navigator.storage?.persist?.().catch(() => false);
  }

  /** The device keeps nothing: said once, the sheets stay in this window. @param {unknown} reason */
  #refused(reason) {
    console.info("not kept:", reason);
    const refused = reason instanceof DOMException && reason.name === "QuotaExceededError" ? "full" : "refused";
    if (this.#set().refused === refused) return;
    this.#set({ refused, saving: false });
    // The screens of the sheets say it where they stand.
    const { screen } = this.#host.state();
    if (screen === "jobs" || onSheet(screen)) return;
    this.#host.set({ notice: { says: SAY.refused[refused], button: SAY.asFile, press: () => this.verbs.saveFile() } });
  }

  /** Another window wrote a sheet. @param {string} id */
  async #told(id) {
    const there = (await this.#shelf.one(id).catch(() => undefined)) ?? null;
    const here = this.#job(id);
    if (here?.revision === there?.revision) return;
    if (here && (this.#dirty(here) || this.#id() === id)) return void this.#set({ behind: new Map(this.#set().behind).set(id, there) });
    this.#replace(id, there);
    this.#host.answer();
  }

  /** What stands in the database is the sheet here too. @param {string} id @param {Job | null} there */
  #replace(id, there) {
    const behind = new Map(this.#set().behind);
    behind.delete(id);
    this.#shelf.typed(id);
    if (there) this.#kept.set(id, there);
    else this.#kept.delete(id);
    this.#set({ behind, jobs: latest([...(there ? [there] : []), ...this.#set().jobs.filter((job) => job.id !== id)]) });
    if (this.#steps.id === id) this.#steps.id = "";
  }

  /** What was typed in a window that is gone, before it was in the database. @param {Job} typed @returns {Promise<boolean>} whether it is safe now */
  async #found(typed) {
    const here = this.#job(typed.id);
    if (here && JSON.stringify(here.sheet) === JSON.stringify(typed.sheet) && here.archived === typed.archived) return true;
    const follows = here ? !this.#dirty(here) && (here.revision === typed.revision || here.by === typed.by) : typed.revision === 0;
    let job = follows ? { ...typed, revision: here?.revision ?? 0 } : this.#copyOf(typed, SAY.recovered);
    try {
      let done = await this.#shelf.put(job);
      if ("other" in done) {
        job = this.#copyOf(typed, SAY.recovered);
        done = await this.#shelf.put(job);
      }
      if (!("kept" in done) || !done.kept) return false;
      this.#kept.set(job.id, done.kept);
      this.#place(done.kept);
      this.#others?.postMessage(job.id);
      this.#host.answer();
      return true;
    } catch (reason) {
      // No room: it is here at least, and stays written down under this window.
      this.#place(job);
      this.#refused(reason);
      return this.#shelf.type(job);
    }
  }

  /** @param {Job} job @param {(name: string) => string} name @returns {Job} */
  #copyOf({ sheet, archived }, name) {
    return { id: fresh(), revision: 0, by: "", changed: Date.now(), archived, sheet: { ...sheet, name: name(sheet.name) } };
  }

  // Changing.

  /** Text in blanks of the open sheet. @param {Fields} text */
  fill(text) {
    const job = this.#job();
    if (!job) return;
    const names = Object.keys(text);
    // Emptied at one go, a blank can be filled again at one.
    this.#edit(names.reduce((sheet, name) => filled(sheet, name, text[name]), job.sheet), names.some((name) => !text[name]) ? "" : names.join());
  }

  /** A step one can go back from; typing on in one blank is the same step. @param {Written} sheet @param {string} [blank] */
  #edit(sheet, blank = "") {
    const job = this.#job();
    if (!job || sheet === job.sheet) return;
    const now = Date.now();
    // After a further step it would go back from that one.
    if (this.#offer && this.#host.state().notice === this.#offer) this.#host.set({ notice: null });
    if (this.#steps.id !== job.id) this.#steps = { id: job.id, past: [], future: [], blank: "", at: 0 };
    const steps = this.#steps;
    if (!blank || blank !== steps.blank || now - steps.at > PAUSE_MS) steps.past = [...steps.past.slice(1 - STEPS), job.sheet];
    this.#steps = { ...steps, future: [], blank, at: now };
    this.#change(job, { sheet });
    this.#count();
  }

  #count() {
    const { id, past, future } = this.#steps;
    const here = id === this.#id();
    this.#set({ past: here && past.length > 0, future: here && future.length > 0 });
  }

  /** @param {"past" | "future"} from @param {"past" | "future"} to */
  #step(from, to) {
    const job = this.#job();
    const sheet = this.#steps[from].at(-1);
    if (!job || !sheet || this.#steps.id !== job.id) return;
    this.#steps = { ...this.#steps, [from]: this.#steps[from].slice(0, -1), [to]: [...this.#steps[to], job.sheet], blank: "" };
    this.#change(job, { sheet });
    this.#count();
    this.#host.answer();
  }

  /** Lines of a section anew, then asked. @param {Section} section @param {(lines: any[]) => any[]} work @param {string} [reach] what gets the focus */
  #lines(section, work, reach) {
    const job = this.#job();
    if (!job) return;
    this.#edit({ ...job.sheet, [section]: work([...job.sheet[section]]) });
    this.#host.answer();
    if (reach) this.#host.reach(reach);
  }

  /** A new sheet on the shelf. @param {Written} sheet @param {Partial<Job>} [told] */
  #add(sheet, told) {
    this.#host.set({ asked: true });
    return this.#change({ id: fresh(), revision: 0, by: "", changed: 0, archived: false, ...told, sheet }, {});
  }

  #newName() {
    const names = this.#set().jobs.map(({ sheet }) => sheet.name);
    let number = names.length + 1;
    while (names.includes(SAY.newName(number))) number += 1;
    return SAY.newName(number);
  }

  /** Says what was done, with the way back. @param {string} says @param {() => void} press */
  #undoable(says, press) {
    const undo = () => {
      press();
      this.#host.set({ notice: null });
      this.#host.answer();
    };
    this.#offer = { says, button: SAY.undo, press: undo };
    this.#host.set({ notice: this.#offer });
  }

  // Asking.

  /** The sheets whose sets are being worked on. */
  #active() {
    return this.#set().jobs.filter(({ archived }) => !archived);
  }

  /** @param {Job[]} jobs @param {boolean} whole */
  #sheets(jobs, whole) {
    this.#set({ sheets: jobs.map(({ id }) => id) });
    return jobs.map(({ sheet }) => asked(sheet, whole).sheet);
  }

  /** Puts what the screen asks for to the core. @param {Screen} screen @param {Fields} fields @returns {Answer[]} */
  answer(screen, fields) {
    switch (screen) {
      case "jobs":
        this.#set({ jobs: latest([...this.#set().jobs]) });
        this.#list();
        return [];
      case "job":
      case "bringup":
        return this.#ask();
      case "wants":
        return this.#active().length ? [askWithout({ ask: "wants", sheets: this.#sheets(this.#active(), false) }, this.#host.ask).answer] : [];
      case "table":
        return fields.text?.trim() ? [askWithout({ ask: "on_the_table", text: fields.text, sheets: this.#sheets(this.#active(), false) }, this.#host.ask).answer] : [];
      case "shopping": {
        const chosen = this.#job(fields.id);
        const jobs = fields.id ? (chosen ? [chosen] : []) : this.#active();
        return jobs.length ? [askWithout({ ask: "shopping", sheets: this.#sheets(jobs, true) }, this.#host.ask).answer] : [];
      }
      case "stock":
        return [this.#host.ask({ ask: "stock", find: fields.find?.trim() || undefined, limit: 100 })];
      default:
        return [];
    }
  }

  /** @returns {Answer[]} */
  #ask() {
    const job = this.#job();
    if (!job) return [];
    const { lines } = job.sheet;
    const preview = lines.trim() ? this.#host.ask({ ask: "sheet_lines", text: lines }) : null;
    const { sheet, tubes, parts } = asked(job.sheet);
    const places = { tubes, parts };
    const bare = !tubes.length && !parts.length && !sheet.rectifier;
    const { answer, faults } = bare ? { answer: null, faults: [] } : askWithout({ ask: "sheet", sheet }, this.#host.ask);
    this.#set({
      preview: preview?.answer === "sheet_lines" ? preview : null,
      places,
      answered: job.sheet,
      faults: faults.map(({ field, found, accepted }) => ({ field: blankOf(field, places, sheet.readings ?? []), found, accepted })),
    });
    this.#count();
    return answer ? [answer] : [];
  }

  /** Asks for the next sheet of the list that was not asked for yet, one after the other, with the page in between. */
  #list() {
    if (this.#listing) return;
    const { lines, jobs } = this.#set();
    const next = jobs.find((job) => !job.archived && !lines.has(job.sheet));
    if (!next) return;
    this.#listing = true;
    setTimeout(() => {
      this.#listing = false;
      const { screen, core } = this.#host.state();
      if (screen !== "jobs" || core !== "ready") return;
      try {
        const { answer } = askWithout({ ask: "sheet", sheet: asked(next.sheet).sheet }, this.#host.ask);
        lines.set(next.sheet, answer.answer === "sheet"
          ? { ...answer.verdict, totals: answer.totals }
          : { mark: "unknown", word: SAY.noLine, says: answer.answer === "error" ? answer.says : "", totals: [] });
      } catch {
        lines.set(next.sheet, { mark: "unknown", word: SAY.noLine, says: "", totals: [] });
        this.#host.recover();
      }
      this.#host.set({});
      this.#list();
    });
  }

  /** Sheets as a file, or said why not. @param {Job[]} jobs */
  #file(jobs) {
    let why = "";
    try {
      const { answer } = askWithout({ ask: "sheet_file", sheets: jobs.map(({ sheet }) => asked(sheet).sheet) }, this.#host.ask);
      if (answer.answer === "sheet_file") return answer;
      why = answer.answer === "error" ? answer.says : "";
    } catch (reason) {
      why = reason instanceof Error ? reason.message : String(reason);
    }
    this.#host.set({ notice: { says: SAY.noFile(why) } });
    return null;
  }

  /** A file of sheets. @param {string} name @param {string} text */
  #sheetFile(name, text) {
    const answer = this.#host.ask({ ask: "sheet_file", text });
    const faults = answer.answer === "sheet_file" ? answer.faults : answer.answer === "error" ? [answer] : [];
    const sheets = answer.answer === "sheet_file" ? answer.sheets : [];
    const ids = sheets.map((sheet) => this.#add(written(sheet)).id);
    this.#set({ brought: { name, count: ids.length, faults } });
    if (this.#host.state().screen !== "jobs") this.#host.go("jobs");
    if (ids.length) this.#undoable(SAY.brought(name, ids.length), () => ids.forEach((id) => this.#delete(id)));
    this.#host.answer();
  }

  /** Takes a sheet off the shelf. @param {string} id */
  #delete(id) {
    const job = this.#job(id);
    if (!job) return;
    this.#shelf.typed(id);
    this.#kept.delete(id);
    this.#set({ jobs: this.#set().jobs.filter((one) => one !== job) });
    // One that another window has changed meanwhile stays, and comes back here.
    this.#shelf.remove(job).then((done) => ("other" in done && done.other ? this.#replace(id, done.other) : this.#others?.postMessage(id)), () => {});
  }

  /** What the views of this place can do. */
  verbs = {
    /** A new sheet; with `paste`, the blank for a list comes first. @param {boolean} [paste] */
    new: (paste = false) => {
      const { id } = this.#add(empty(this.#newName()));
      this.#set({ open: new Set(paste ? ["lines"] : ["facts"]) });
      this.#host.go("job", { id });
      this.#host.reach(paste ? '[data-field="lines"]' : '[data-field="name"]');
    },
    /** @param {string} id */
    duplicate: (id) => {
      const job = this.#job(id);
      if (!job) return;
      const copy = this.#add({ ...job.sheet, name: SAY.copyOf(job.sheet.name), readings: {}, ticks: {} });
      this.#host.go("job", { id: copy.id });
      this.#undoable(SAY.duplicated(job.sheet.name), () => {
        this.#delete(copy.id);
        this.#host.go("jobs");
      });
    },
    /** @param {string} id @param {boolean} archived */
    archive: (id, archived) => {
      const job = this.#job(id);
      if (!job) return;
      this.#change(job, { archived });
      if (archived && this.#host.state().screen !== "jobs") this.#host.go("jobs");
      this.#undoable((archived ? SAY.archived : SAY.unarchived)(job.sheet.name), () => {
        const now = this.#job(id);
        if (now) this.#change(now, { archived: !archived });
      });
      this.#host.answer();
    },
    /** Out of the archive for good. @param {string} id */
    remove: (id) => {
      const job = this.#job(id);
      if (!job?.archived) return;
      this.#delete(id);
      this.#undoable(SAY.removed(job.sheet.name), () => void this.#change({ ...job, revision: 0 }, {}));
    },
    /** Gives sheets as a file; all when none is named. @param {string} [id] */
    saveFile: (id) => {
      const { jobs } = this.#set();
      const chosen = id ? jobs.filter((job) => job.id === id) : jobs;
      const file = this.#file(chosen);
      if (!file) return;
      download(`${(id && chosen[0] ? plain(chosen[0].sheet.name) : "") || "sets"}.json`, file.text, "application/json");
    },
    /** Sends a sheet as plain words, or puts them on the clipboard. @param {string} id */
    share: async (id) => {
      const job = this.#job(id);
      if (!job) return;
      const file = this.#file([job]);
      if (file) await this.#send(job.sheet.name, file.words);
    },
    /** @param {string} title @param {string} text */
    send: (title, text) => this.#send(title, text),
    /** Files or texts: sheets, or lines of one. @param {(File | string)[]} all */
    bring: async (all) => {
      for (const one of all) {
        const name = typeof one === "string" ? SAY.pasted : one.name;
        try {
          const text = typeof one === "string" ? one : await this.#host.text(one);
          if (/^[\s\uFEFF]*[{[]/.test(text)) this.#sheetFile(name, text);
          else this.#listOf(text);
        } catch (reason) {
          this.#host.set({ notice: { says: SAY.notRead(name, reason instanceof Error ? reason.message : String(reason)) } });
        }
      }
    },
    closeBrought: () => this.#set({ brought: null }),
    /** @param {string} key @param {boolean} open */
    fold: (key, open) => {
      if (this.#set().open.has(key) === open) return;
      const all = new Set(this.#set().open);
      if (open) all.add(key);
      else all.delete(key);
      this.#set({ open: all });
    },
    /** Another line, before the one at a place or at the end. @param {Section} section @param {number} [at] */
    insert: (section, at) => {
      const job = this.#job();
      if (!job) return;
      const place = at ?? job.sheet[section].length;
      const line = section === "tubes" ? tubeLine() : partLine();
      this.verbs.fold(line.key, true);
      this.#lines(section, (lines) => [...lines.slice(0, place), line, ...lines.slice(place)], `[data-field="${section}.${place}.${section === "tubes" ? "type" : "marking"}"]`);
    },
    /** @param {Section} section @param {number} at @param {number} by */
    move: (section, at, by) => {
      const to = at + by;
      const count = this.#job()?.sheet[section].length ?? 0;
      if (to < 0 || to >= count) return;
      // The button that was pressed goes along with its line; at an end the other one is left.
      const way = to === 0 ? "down" : to === count - 1 || by < 0 ? "up" : "down";
      const swapped = (/** @type {unknown[]} */ lines) => lines.map((line, place) => (place === at ? lines[to] : place === to ? lines[at] : line));
      this.#lines(section, swapped, `[data-move="${section}.${to}.${way}"]`);
    },
    /** @param {Section} section @param {number} at */
    drop: (section, at) => {
      const line = this.#job()?.sheet[section][at];
      if (!line) return;
      this.#lines(section, (lines) => lines.filter((_, place) => place !== at));
      this.#undoable(SAY.dropped(called(line)), () => this.verbs.undo());
    },
    /** The lines that were pasted become lines of the sheet. */
    takeLines: () => {
      const job = this.#job();
      this.#host.answer();
      const { preview } = this.#set();
      if (!job || !preview) return;
      const { tubes, parts } = linesOf(preview);
      this.#edit({ ...job.sheet, lines: "", tubes: [...job.sheet.tubes, ...tubes], parts: [...job.sheet.parts, ...parts] });
      this.verbs.fold("lines", false);
      this.#undoable(SAY.took(tubes.length, parts.length), () => this.verbs.undo());
      this.#host.answer();
    },
    /** To a line of the sheet. @param {import("./answers").SheetSection} section @param {number} [at] its place among the lines that were asked */
    show: (section, at) => {
      const job = this.#job();
      const place = at === undefined || (section !== "tubes" && section !== "parts") ? undefined : this.#set().places[section][at];
      const line = place !== undefined && (section === "tubes" || section === "parts") ? job?.sheet[section][place] : undefined;
      // Of several lines at once: to the first of them all.
      if (!line && (section === "tubes" || section === "parts")) return this.#host.reach(`[data-lines="${section}"]`);
      const fold = line ? line.key : section === "supply" ? "supply" : "facts";
      this.verbs.fold(fold, true);
      this.#host.reach(`[data-fold="${fold}"]`);
    },
    /** Past the answer, to the tubes and parts. */
    toLines: () => this.#host.reach('[data-lines="tubes"]'),
    undo: () => this.#step("past", "future"),
    redo: () => this.#step("future", "past"),
    /** The other window's sheet is the one that stays. */
    takeTheirs: () => {
      const id = this.#id();
      const theirs = this.#set().behind.get(id) ?? null;
      this.#replace(id, theirs);
      if (theirs) this.#host.answer();
      else this.#host.go("jobs");
    },
    /** Both stay: what stands here as a sheet of its own. */
    keepMine: () => {
      const job = this.#job();
      if (!job) return;
      const theirs = this.#set().behind.get(job.id) ?? null;
      const { id } = this.#add({ ...job.sheet, name: SAY.mine(job.sheet.name) });
      this.#replace(job.id, theirs);
      this.#host.go("job", { id });
    },
    /** Bought, or not after all. @param {string} what */
    got: (what) => {
      const all = new Set(this.#set().got);
      if (!all.delete(what)) all.add(what);
      this.#set({ got: all });
      try {
        localStorage.setItem(GOT, JSON.stringify([...all].slice(-500)));
      } catch {
        // Refused: ticked in this window only.
      }
    },
  };

  /** Pasted or brought lines: into the open sheet, else into a new one; looked at before they are taken in. @param {string} text */
  #listOf(text) {
    if (!this.#job()) this.verbs.new(true);
    const job = this.#job();
    if (!job) return;
    this.#edit({ ...job.sheet, lines: [job.sheet.lines.trimEnd(), text].filter(Boolean).join("\n") });
    this.verbs.fold("lines", true);
    this.#host.answer();
    this.#host.reach('[data-field="lines"]');
  }

  /** @param {string} title @param {string} text */
  async #send(title, text) {
    try {
      if (navigator.share) return await navigator.share({ title, text });
      await navigator.clipboard.writeText(text);
      this.#host.set({ notice: { says: SAY.copied } });
    } catch (reason) {
      // Whoever changes their mind has done nothing wrong.
      if (!(reason instanceof DOMException && reason.name === "AbortError")) this.#host.set({ notice: { says: SAY.notShared } });
    }
  }
}

/** The sheet changed last comes first. @param {Job[]} jobs */
const latest = (jobs) => jobs.sort((one, other) => other.changed - one.changed);

/** A name as that of a file. @param {string} name */
const plain = (name) => name.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "").slice(0, 60);

/** @returns {Set<string>} */
function got() {
  try {
    const kept = JSON.parse(localStorage.getItem(GOT) ?? "[]");
    return new Set(Array.isArray(kept) ? kept.filter((one) => typeof one === "string") : []);
  } catch {
    return new Set();
  }
}

/**
 * The blank a field of the core's question stands in: `sheet.tubes[1].fitted` is `tubes.2.fitted` where one line before it is empty.
 * @param {string} path @param {{ tubes: number[], parts: number[] }} places @param {{ key: string }[]} readings
 */
export const blankOf = (path, places, readings) => {
  const plain = path.replace(/^sheet\./, "");
  const [, section, at, name] = /^(tubes|parts)\[(\d+)\]\.(\w+)$/.exec(plain) ?? [];
  if (section) return `${section}.${places[/** @type {Section} */ (section)][Number(at)]}.${name}`;
  const [, reading] = /^readings\[(\d+)\]/.exec(plain) ?? [];
  if (reading) return `readings.${readings[Number(reading)]?.key}`;
  const [, supply] = /^rectifier\.(.*)$/.exec(plain) ?? [];
  return supply ? `supply.${fieldOf("rectifier", supply)}` : plain;
};
