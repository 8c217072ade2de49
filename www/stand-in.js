// The custom element <stand-in>: state, and the verbs that change it. Every verb ends in `#draw`, which makes the whole view anew from
// the whole state. The views know no verbs but these, and nothing here knows how anything looks.

import { render } from "./vendor/lit-html.js";
import * as address from "./address.js";
import * as bench from "./bench.js";
import * as keep from "./keep.js";
import { questions } from "./questions.js";
import { FIELDS, LASTING, PLACES, SHEETS, blank, placeOf } from "./sheets.js";
import { begin } from "./state.js";
import { style } from "./style.js";
import { view } from "./view.js";
import { WORDS } from "./words.js";

/** @typedef {import("./address.js").Screen} Screen */
/** @typedef {import("./sheets.js").Sheet} Sheet */
/** @typedef {import("./sheets.js").Fields} Fields */
/** @typedef {import("./sheets.js").Place} Place */
/** @typedef {import("./bench.js").BookFile} BookFile */
/** @typedef {import("./keep.js").Kept} Kept */
/** @typedef {import("./state.js").State} State */

/** How long typing rests before an answer, milliseconds. */
const REST_MS = 150;

export class StandIn extends HTMLElement {
  #state = begin();
  #root = this.attachShadow({ mode: "open" });
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #resting;
  /** @type {AbortController | undefined} */
  #listening;
  /** Settled once the core has started, well or not. @type {Promise<void>} */
  #started = Promise.resolve();
  /** Details that printing opened, to be closed again. @type {HTMLDetailsElement[]} */
  #opened = [];

  connectedCallback() {
    this.#root.adoptedStyleSheets = [style];
    this.#recall();
    this.#listening = new AbortController();
    const { signal } = this.#listening;
    window.addEventListener("popstate", () => this.#follow(), { signal });
    window.addEventListener("beforeprint", () => this.#unfold(), { signal });
    window.addEventListener("afterprint", () => this.#foldAgain(), { signal });
    document.addEventListener("click", (event) => !event.composedPath().includes(this) && this.verbs.menu(false), { signal });
    this.#draw();
    this.#started = this.#start();
  }

  disconnectedCallback() {
    this.#listening?.abort();
    clearTimeout(this.#resting);
  }

  /** Offers a newer version of the page; `take` is called when the user wants it. @param {() => void} take */
  offerUpdate(take) {
    this.#set({ notice: { says: WORDS.update.says, button: WORDS.update.take, press: take } });
  }

  /** Says once that no network is needed from now on. */
  keepsWorking() {
    this.#set({ offline: true, notice: this.#state.notice ?? { says: WORDS.keepsWorking } });
  }

  /** What the views can do. */
  verbs = {
    /** A field is being filled in. @param {string} name @param {string} text */
    type: (name, text) => {
      this.#fill({ [name]: text });
      // Written down before the answer is due: a page left or reloaded in the meantime keeps the last letter.
      this.#write("replace");
      clearTimeout(this.#resting);
      this.#resting = setTimeout(() => this.verbs.answer(), REST_MS);
      this.#draw();
    },
    /** A choice is made: answered at once. @param {string} name @param {string} value */
    choose: (name, value) => {
      this.#fill({ [name]: value });
      this.verbs.answer();
    },
    /** Something was tapped that fills fields: a step one can go back from. @param {Fields} fields */
    take: (fields) => {
      const { screen } = this.#state;
      if (screen === "book" || screen === "about") return;
      this.verbs.go(screen, { ...this.#state.fields[screen], ...fields });
    },
    /** Answers now. */
    answer: () => {
      clearTimeout(this.#resting);
      this.#answer();
      this.#write("replace");
      this.#draw();
    },
    /** Goes to a screen, with fields or with what was filled in there last. @param {Screen} screen @param {Fields} [fields] */
    go: (screen, fields) => {
      clearTimeout(this.#resting);
      if (screen !== "book" && screen !== "about" && fields) this.#state.fields[screen] = { ...fields };
      this.#state = { ...this.#state, screen, menu: false, telling: false };
      this.#answer();
      this.#write("push");
      this.#draw();
      this.#top();
    },
    /** Opens a place with the question that was open there last. @param {Place} place */
    place: (place) => {
      const { screen } = this.#state;
      const here = screen !== "book" && screen !== "about" && placeOf(screen) === place;
      this.verbs.go(here ? screen : this.#lastOf[place]);
    },
    /** Empties one field and goes to it. @param {string} name */
    clear: (name) => {
      this.#fill({ [name]: "" });
      this.verbs.answer();
      this.#focus(name);
    },
    /** Empties the question but for what describes the bench. */
    clearAll: () => {
      const { screen, fields } = this.#state;
      if (screen === "book" || screen === "about") return;
      const before = fields[screen];
      const after = Object.fromEntries(LASTING.filter((name) => before[name]).map((name) => [name, before[name]]));
      this.verbs.go(screen, after);
      this.#focus(FIELDS[screen].find((name) => !LASTING.includes(name) && this.#field(name)) ?? "");
    },
    /** Unfolds the further facts. @param {boolean} telling @param {string} [name] the field to go to */
    tell: (telling, name) => {
      this.#set({ telling });
      if (telling && name) this.#focus(name);
    },
    /** @param {boolean} menu */
    menu: (menu) => {
      if (menu === this.#state.menu) return;
      const inside = this.#root.activeElement?.closest("[data-menu]");
      this.#set({ menu });
      // Closed from inside, the menu gives the focus back to its button.
      if (!menu && inside) /** @type {HTMLElement | null} */ (this.#root.querySelector("[data-menu-button]"))?.focus();
    },
    /** @param {Kept["theme"]} theme */
    theme: (theme) => {
      this.#set({ theme });
      this.#remember();
    },
    /** Lays files of the user over the book. @param {import("./bench.js").Table} table @param {File[]} files */
    load: async (table, files) => {
      for (const file of files) await this.#load(table, file);
    },
    /** Takes one of the user's files out of the book, with a way back. @param {number} at */
    remove: async (at) => {
      const before = this.#state.files.map(({ file }) => file);
      await this.#lay(before.filter((_, place) => place !== at));
      this.#set({
        notice: {
          says: WORDS.book.removed(before[at].name),
          button: WORDS.undo,
          press: () => void this.#lay(before).then(() => this.#set({ notice: null })),
        },
      });
    },
    /** Gives a table of the book as a file. @param {import("./bench.js").Table} table */
    save: (table) => {
      const link = document.createElement("a");
      link.href = URL.createObjectURL(new Blob([bench.save(table)], { type: "text/csv" }));
      link.download = `${table}.csv`;
      link.click();
      // Not at once: the browser reads it after the click has returned.
      setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    },
    dismiss: () => this.#set({ notice: null }),
    /** Skips to the answer. */
    skip: () => /** @type {HTMLElement | null} */ (this.#root.querySelector("[data-answer]"))?.focus(),
    /** Enter: answers at once and, on a touch screen, puts the keyboard away. */
    enter: () => {
      this.verbs.answer();
      if (!matchMedia("(pointer: coarse)").matches) return;
      /** @type {HTMLElement | null} */ (this.#root.activeElement)?.blur();
      this.#root.querySelector(".verdict")?.scrollIntoView({ block: "nearest" });
    },
  };

  /** The question last open in each place. @type {Record<Place, Sheet>} */
  #lastOf = { tube: PLACES.tube[0], supply: PLACES.supply[0], part: PLACES.part[0] };

  /** @param {Partial<State>} change */
  #set(change) {
    this.#state = { ...this.#state, ...change };
    this.#draw();
  }

  #draw() {
    const { theme, screen } = this.#state;
    if (screen !== "book" && screen !== "about") this.#lastOf[placeOf(screen)] = screen;
    if (theme === "device") this.removeAttribute("theme");
    else this.setAttribute("theme", theme);
    render(view(this.#state, this.verbs), this.#root);
  }

  /** Takes text into the fields of the open question; once a part was typed, the welcome is over. @param {Fields} text */
  #fill(text) {
    const { screen, fields } = this.#state;
    if (screen === "book" || screen === "about") return;
    const asked = this.#state.asked || Object.keys(text).some((name) => text[name] && !LASTING.includes(name));
    this.#state = { ...this.#state, asked, fields: { ...fields, [screen]: { ...fields[screen], ...text } } };
  }

  async #start() {
    /** @type {BookFile[]} */
    let files = [];
    try {
      files = await keep.files();
    } catch {
      // No storage here: the shipped book alone.
    }
    try {
      const reports = await bench.start(files);
      this.#state.files = files.map((file, at) => ({ file, report: reports[at] }));
      this.#state.core = "ready";
    } catch (reason) {
      this.#set({ core: "failed", reason: words(reason) });
      return;
    }
    this.#answer();
    this.#draw();
    const { screen } = this.#state;
    // At a desk the first field is where the hands want to be; on a phone the keyboard would cover half the page.
    const idle = document.activeElement === document.body || document.activeElement === null;
    if (screen === "swap" && idle && matchMedia("(pointer: fine)").matches) this.#focus("set");
  }

  /** Puts what is filled in to the core. */
  #answer() {
    const { screen, fields, core } = this.#state;
    if (core === "starting" || core === "failed") return;
    if (screen === "book" || screen === "about") return void (this.#state.answers = []);
    const asked = questions(screen, fields[screen]);
    try {
      this.#state.answers = asked.map(bench.ask);
      this.#state.core = "ready";
    } catch (reason) {
      console.error(reason);
      this.#state.answers = [];
      this.#recover(asked);
    }
  }

  /** The instance trapped, a fault of ours: a new one, and the question again. @param {import("./answers").Question[]} asked */
  async #recover(asked) {
    try {
      await bench.recover();
    } catch (reason) {
      this.#set({ core: "failed", reason: words(reason) });
      return;
    }
    try {
      const answers = asked.map(bench.ask);
      this.#set({ core: "ready", answers, notice: { says: WORDS.restarted } });
    } catch (reason) {
      console.error(reason);
      await bench.recover();
      this.#set({ core: "trapped", answers: [] });
    }
  }

  /** @param {import("./bench.js").Table} table @param {File} file */
  async #load(table, file) {
    this.#set({ reading: file.name });
    await this.#started;
    try {
      const csv = await file.text();
      // Drawn before the core is busy with a large file.
      await new Promise((then) => requestAnimationFrame(() => setTimeout(then)));
      const files = this.#state.files.map((row) => row.file);
      const old = files.findIndex((row) => row.name === file.name && row.table === table);
      const row = { name: file.name, table, csv };
      await this.#lay(old < 0 ? [...files, row] : files.map((other, at) => (at === old ? row : other)));
    } catch (reason) {
      this.#set({ notice: { says: WORDS.book.notRead(file.name, words(reason)) } });
    } finally {
      this.#set({ reading: "" });
    }
  }

  /** Makes the book anew: the shipped one, and over it these files; keeps them for the next visit. @param {BookFile[]} files */
  async #lay(files) {
    const reports = await bench.start(files);
    this.#set({ files: files.map((file, at) => ({ file, report: reports[at] })) });
    try {
      await keep.keepFiles(files);
    } catch (reason) {
      this.#set({ notice: { says: WORDS.book.notKept(words(reason)) } });
    }
  }

  /** What was kept from the last visit; the address says more and wins. */
  #recall() {
    const kept = keep.recall();
    const fields = blank();
    for (const sheet of SHEETS) {
      for (const name of FIELDS[sheet]) {
        const text = kept.fields?.[sheet]?.[name];
        if (typeof text === "string") fields[sheet][name] = text;
      }
    }
    const theme = kept.theme === "light" || kept.theme === "dark" ? kept.theme : "device";
    const screen = SHEETS.find((sheet) => sheet === kept.sheet) ?? "swap";
    const offline = Boolean(navigator.serviceWorker?.controller);
    this.#state = { ...this.#state, fields, theme, screen, asked: kept.asked === true, offline };
    const where = address.read(location.hash);
    if (!where) return this.#write("replace");
    this.#at(where);
  }

  #remember() {
    const { theme, asked, screen, fields } = this.#state;
    const sheet = screen === "book" || screen === "about" ? "swap" : screen;
    // Before the first own question only examples were filled in, which nobody wants to find again.
    keep.remember({ theme, asked, sheet: asked ? sheet : "swap", fields: asked ? fields : blank() });
  }

  /** @param {address.Where} where */
  #at({ screen, fields }) {
    this.#state = { ...this.#state, screen, menu: false, telling: false };
    if (screen !== "book" && screen !== "about") this.#state.fields = { ...this.#state.fields, [screen]: fields };
  }

  /** Back, Forward, or an address typed by hand. */
  #follow() {
    const where = address.read(location.hash);
    if (!where) return;
    clearTimeout(this.#resting);
    this.#at(where);
    this.#answer();
    this.#draw();
    this.#top();
  }

  /** @param {"push" | "replace"} how */
  #write(how) {
    const { screen, fields } = this.#state;
    const hash = address.write({ screen, fields: screen === "book" || screen === "about" ? {} : fields[screen] });
    this.#remember();
    if (hash === location.hash) return;
    try {
      if (how === "push") history.pushState(null, "", hash);
      else history.replaceState(null, "", hash);
    } catch {
      // Some browsers refuse an address changed many times in a few seconds; the next change writes it.
    }
  }

  #top() {
    if (this.getBoundingClientRect().top < 0) this.scrollIntoView();
  }

  /** @param {string} name */
  #field(name) {
    return /** @type {HTMLInputElement | null} */ (this.#root.querySelector(`[data-field="${CSS.escape(name)}"]`));
  }

  /** @param {string} name */
  #focus(name) {
    this.#field(name)?.focus();
  }

  #unfold() {
    this.#opened = [...this.#root.querySelectorAll("details:not([open])")].map((one) => /** @type {HTMLDetailsElement} */ (one));
    for (const one of this.#opened) one.open = true;
  }

  #foldAgain() {
    for (const one of this.#opened) one.open = false;
    this.#opened = [];
  }
}

/** @typedef {StandIn["verbs"]} Verbs */

/** @param {unknown} reason */
const words = (reason) => (reason instanceof Error ? reason.message : String(reason));

customElements.define("stand-in", StandIn);
