// The custom element <stand-in>: state, and the verbs that change it. Every verb ends in `#draw`, which makes the whole view anew from
// the whole state. The views know no verbs but these, and nothing here knows how anything looks.

import { render } from "./vendor/lit-html.js";
import * as address from "./address.js";
import { core, parts } from "./bench.js";
import { cellOf, changes, rowsOf, whole } from "./csv.js";
import * as embed from "./embed.js";
import { download } from "./download.js";
import { Jobs, onSheet } from "./jobs.js";
import * as keep from "./keep.js";
import { questions } from "./questions.js";
import { FIELDS, LASTING, PLACES, SHEETS, blank, placeOf } from "./sheets.js";
import { begin } from "./state.js";
import { stockVerbs } from "./stock.js";
import { style } from "./style.js";
import { view } from "./view.js";
import { said, speak, usual, wordingOf } from "./wording.js";
import { WORDS } from "./words.js";

/** @typedef {import("./address.js").Screen} Screen */
/** @typedef {import("./sheets.js").Sheet} Sheet */
/** @typedef {import("./sheets.js").Fields} Fields */
/** @typedef {import("./sheets.js").Place} Place */
/** @typedef {import("./bench.js").Own} Own */
/** @typedef {import("./bench.js").Report} Report */
/** @typedef {import("./bench.js").Table} Table */
/** @typedef {import("./state.js").Item} Item */
/** @typedef {import("./keep.js").Kept} Kept */
/** @typedef {import("./state.js").State} State */

/** How long typing rests before an answer, milliseconds. */
const REST_MS = 150;
/** How many of the user's types are listed at once. */
const LISTED = 30;

export class StandIn extends HTMLElement {
  static observedAttributes = embed.OBSERVED;

  #state = begin();
  #bench = core();
  #root = this.attachShadow({ mode: "open" });
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #resting;
  /** @type {AbortController | undefined} */
  #listening;
  /** Settled once the core has started, well or not. @type {Promise<void>} */
  #started = Promise.resolve();
  /** Settled when the book is as it was last wanted: changes wait for each other. @type {Promise<unknown>} */
  #turn = Promise.resolve();
  /** Files and pasted texts that wait to be looked at. @type {(File | string)[]} */
  #waiting = [];
  /** The file that is being read; another means that this one was dropped. @type {object | null} */
  #reading = null;
  /** Elements of this kind, here and in other windows. @type {BroadcastChannel | null} */
  #others = null;
  /** The last click on the element. @type {Event | null} */
  #clicked = null;
  /** Whether the address of the page is this element's. */
  #addressed = false;
  /** The user's sets. */
  #sets = new Jobs({
    state: () => this.#state,
    set: (change) => this.#soon(change),
    ask: (question) => this.#ask(question),
    go: (screen, fields) => this.verbs.go(screen, fields),
    answer: () => (this.#answer(), this.#draw()),
    reach: (selector) => (this.#draw(), this.#reach(this.#root.querySelector(selector))),
    text: async (file) => text(await file.arrayBuffer()),
    recover: () => this.#bench.recover(),
  });
  /** Whether the view is to be drawn when the work in hand is done. */
  #drawn = true;
  /** The screen from which a row was opened. @type {Screen} */
  #from = "book";
  /** Details that printing opened, to be closed again. @type {HTMLDetailsElement[]} */
  #opened = [];

  connectedCallback() {
    const again = this.#listening !== undefined;
    this.#root.adoptedStyleSheets = [style];
    this.#addressed = embed.ownAddress(this);
    this.#state = { ...this.#state, embedded: !this.#addressed, label: this.getAttribute("label") ?? "" };
    if (!again) this.#recall();
    else if (this.#addressed) this.#write("replace");
    this.#listening = new AbortController();
    const { signal } = this.#listening;
    if (this.#addressed) window.addEventListener("popstate", () => this.#follow(), { signal });
    window.addEventListener("beforeprint", () => this.#unfold(), { signal });
    window.addEventListener("afterprint", () => this.#foldAgain(), { signal });
    // A file dropped anywhere on the page is looked at; without this the browser would leave the page for it.
    this.addEventListener("dragover", (event) => event.preventDefault(), { signal });
    this.addEventListener("drop", (event) => {
      const files = [...(event.dataTransfer?.files ?? [])];
      const text = event.dataTransfer?.getData("text");
      // Words that are moved from one blank to another are no table.
      if (!files.length && /** @type {Element} */ (event.composedPath()[0]).matches("input, textarea")) return;
      event.preventDefault();
      this.verbs.bring(files.length || !text ? files : [text]);
    }, { signal });
    // What another element or window kept is the book here too.
    if (!embed.keepsNothing(this) && typeof BroadcastChannel === "function") {
      this.#others = new BroadcastChannel("stand-in");
      this.#others.addEventListener("message", () => this.#renew(), { signal });
    }
    // Beside it, the menu is closed. From a closed shadow root around it the path of a click would not tell.
    this.addEventListener("click", (event) => (this.#clicked = event), { signal });
    document.addEventListener("click", (event) => event !== this.#clicked && this.verbs.menu(false), { signal });
    this.#draw();
    if (!again || this.#state.core === "failed") this.#started = this.#start();
    // Taken out and put in again: it is as it was, but the book may have changed meanwhile.
    else if (this.#others) this.#renew();
    this.#sets.start(signal, !embed.keepsNothing(this));
  }

  disconnectedCallback() {
    this.#listening?.abort();
    this.#others?.close();
    this.#others = null;
    embed.giveAddressBack(this);
    this.#addressed = false;
  }

  /** @param {string} name @param {string | null} _before @param {string | null} text */
  attributeChangedCallback(name, _before, text) {
    // It goes before what is chosen in the menu and what the device's language has.
    if (name === "words") this.#state.givenWords = wordingOf(text);
    // What else stands there at first is read when the element comes into the page.
    if (!this.#listening) return;
    if (name === "words") {
      this.#answer();
      this.#draw();
    }
    const theme = embed.themeOf(text) ?? "device";
    if (name === "theme" && theme !== this.#state.theme) this.#set({ theme });
    if (name === "label") this.#set({ label: text ?? "" });
    if (name === "place") this.#turnTo(text, (screen, fields) => this.verbs.go(screen, fields));
  }

  /**
   * Puts a question to the core and leaves what is shown as it is. What the core cannot read comes back as an answer that says so.
   * @param {import("./answers").Question} question
   * @returns {Promise<import("./answers").Answer>}
   */
  async ask(question) {
    if (!this.#listening) throw new Error("put the <stand-in> into the page first: its core starts there");
    await this.#started;
    await this.#turn;
    if (this.#state.core === "failed") throw new Error(this.#state.reason);
    return this.#bench.answer(question);
  }

  /**
   * Goes to a place, as its address names it: `open("supply/heaters")`, `open("tube?set=12SK7")`, `open("tube", { set: "12SK7" })`. With nothing
   * filled in, what was filled in there last.
   * @param {string} place
   * @param {Record<string, string>} [fields]
   */
  open(place, fields) {
    if (!this.#turnTo(place, (screen, fields) => this.verbs.go(screen, fields), fields)) {
      throw new RangeError(`there is no place ${JSON.stringify(place)}; accepted: ${embed.places().join(", ")}`);
    }
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
    /** Something is set on a drawing, which may be more than one field: answered at once. @param {Fields} fields */
    set: (fields) => {
      this.#fill(fields);
      this.verbs.answer();
    },
    /** Something was tapped that fills fields: a step one can go back from. @param {Fields} fields */
    take: (fields) => {
      const { screen } = this.#state;
      if (screen === "about") return;
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
      if (screen !== "about" && fields) this.#state.fields[screen] = { ...fields };
      if (screen === "row" && this.#state.screen !== "row") this.#from = this.#state.screen;
      this.#state = { ...this.#state, screen, menu: false, telling: false };
      this.#answer();
      this.#write("push");
      this.#draw();
      this.#top();
    },
    /** Goes to a tube's own page: what it is and what can go in. @param {string} type */
    own: (type) => {
      const { swap } = this.#state.fields;
      this.verbs.go("swap", { heaters: swap.heaters ?? "", line_v: swap.line_v ?? "", set: type });
    },
    /** Back to where a row was opened. */
    back: () => this.verbs.go(this.#from === "row" ? "book" : this.#from),
    /** Opens a place with the question that was open there last. @param {Place} place */
    place: (place) => {
      const { screen } = this.#state;
      const here = screen !== "about" && placeOf(screen) === place;
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
      if (screen === "about") return;
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
    /** @param {string} words American or British */
    words: (words) => {
      this.#state.words = wordingOf(words);
      this.#answer();
      this.#draw();
      this.#remember();
    },
    /** Files or pasted text came in: looked at one after another. @param {(File | string)[]} all */
    bring: (all) => {
      if (!all.length) return;
      // Lines for a sheet and sheets as files are no tables of the book.
      const { screen } = this.#state;
      if (screen === "jobs" || onSheet(screen) || all.every((one) => typeof one !== "string" && /\.json$/i.test(one.name))) return void this.#sets.verbs.bring(all);
      this.#waiting.push(...all);
      if (this.#state.screen !== "book") this.verbs.go("book");
      if (!this.#state.incoming) this.#next();
    },
    /** Reads the file that is looked at for the other table. @param {Table} table */
    readAs: (table) => {
      const { incoming } = this.#state;
      if (incoming) this.#look({ ...incoming, table });
    },
    /** Takes in what was looked at. */
    accept: () => {
      const { incoming } = this.#state;
      if (incoming?.report?.answer !== "preview") return;
      this.#change(async () => {
        const report = this.#bench.finish();
        this.#next();
        if (incoming.table === "stock") this.verbs.go("stock", {});
        return report.answer === "loaded" ? WORDS.book.taken(incoming.name, report.new, report.changed) : report.says;
      });
    },
    /** Leaves what was looked at, or stops reading it. */
    leave: () => {
      this.#bench.drop();
      this.#next();
    },
    /** Takes rows of the user out of the book. @param {Item} item */
    remove: ({ table, name }) => {
      this.#change(async () => {
        this.#bench.forget(table, name);
        return WORDS.book.removed(name);
      });
    },
    /** Adds a row to the one that is edited: another unit of the tube. */
    unit: () => {
      const at = this.#rows().length;
      this.verbs.choose(`${at}.unit`, String(at + 1));
      this.#focus(`${at}.function`);
    },
    /** Forgets what was typed over a row. */
    discard: () => {
      this.#draft(null);
      this.verbs.answer();
    },
    /** Lays the row that is edited over the book, unless something in it cannot be read: then goes there. */
    saveRow: () => {
      this.verbs.answer();
      const { answers, foreseen, fields } = this.#state;
      const [row] = answers;
      if (row?.answer !== "row") return;
      const faults = foreseen && foreseen.answer !== "error" ? foreseen.faults : [];
      if (faults.length) return this.#focus(cellOf(faults[0]));
      const csv = changes(this.#rows(), row.rows[0].from === "empty");
      if (!csv) return;
      this.#change(async () => {
        this.#bench.load({ table: "tubes", csv });
        this.#draft(null, fields.row.type);
        // To where the row was wanted, which now answers with it.
        if (this.#state.screen === "row") this.verbs.back();
        return WORDS.row.saved(row.type);
      });
    },
    /** Gives a table of the book as a file. @param {string} table */
    save: (table) => download(`${table}.csv`, this.#bench.save(table), "text/csv"),
    sets: this.#sets.verbs,
    stock: stockVerbs({ bench: this.#bench, state: () => this.#state, set: (change) => this.#set(change), change: (work) => this.#change(work), go: (fields) => this.verbs.go("stock", fields) }),
    print: () => window.print(),
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
  #lastOf = { tube: PLACES.tube[0], supply: PLACES.supply[0], part: PLACES.part[0], sets: PLACES.sets[0], book: PLACES.book[0] };

  /** @param {Partial<State>} change */
  #set(change) {
    this.#state = { ...this.#state, ...change };
    this.#draw();
  }

  /** From here on everything is said in this element's words. */
  #speak() {
    const words = this.#state.givenWords || this.#state.words || usual(navigator.language);
    speak(words);
    this.lang = words === "uk" ? "en-GB" : "en-US";
  }

  /** Asks the core, and takes its answer in this element's words. @param {import("./answers").Question} question */
  #ask(question) {
    this.#speak();
    return said(this.#bench.ask(question), question);
  }

  /** Changes the state; drawn once, when the work in hand is done. @param {Partial<State>} change */
  #soon(change) {
    this.#state = { ...this.#state, ...change };
    if (this.#drawn) queueMicrotask(() => this.#drawn || this.#draw());
    this.#drawn = false;
  }

  #draw() {
    this.#drawn = true;
    const { theme, screen } = this.#state;
    this.#speak();
    if (screen !== "about") this.#lastOf[placeOf(screen)] = screen;
    if (theme === "device") this.removeAttribute("theme");
    else this.setAttribute("theme", theme);
    render(view(this.#state, this.verbs), this.#root);
  }

  /** Takes text into the fields of the open question; once a part was typed, the welcome is over. @param {Fields} text */
  #fill(text) {
    const { screen, fields } = this.#state;
    if (screen === "about") return;
    if (screen === "row") return this.#draft(text);
    if (onSheet(screen)) return this.#sets.fill(text);
    const asked = this.#state.asked || Object.keys(text).some((name) => text[name] && !LASTING.includes(name));
    this.#state = { ...this.#state, asked, fields: { ...fields, [screen]: { ...fields[screen], ...text } } };
  }

  async #start() {
    /** @type {Awaited<ReturnType<typeof keep.book>>} */
    let kept = { files: [] };
    try {
      if (!embed.keepsNothing(this)) kept = await keep.book();
    } catch {
      // No storage here: the shipped book alone.
      this.#state.storage = "refused";
    }
    try {
      const { own, files } = kept;
      await this.#bench.start(own ? parts(own) : files, (done) => this.#laying(done));
      this.#state.core = "ready";
      // Files of an earlier version become rows.
      if (files.length) await this.#keep();
    } catch (reason) {
      this.#fail(reason);
      return;
    }
    this.#answer();
    this.#draw();
    embed.tell(this, "ready", null);
    if (this.#state.storage === "refused") this.#set({ notice: this.#state.notice ?? { says: WORDS.notKept.refused } });
    const { screen } = this.#state;
    // At a desk the first field is where the hands want to be; on a phone the keyboard would cover half the page. Beside other things on a page
    // of somebody else's, the hands may want to be elsewhere.
    const idle = this.#addressed && (document.activeElement === document.body || document.activeElement === null);
    if (screen === "swap" && idle && matchMedia("(pointer: fine)").matches) this.#focus("set");
  }

  /** @param {string | null} place @param {(screen: Screen, fields: Fields | undefined) => void} go @param {Record<string, string>} [fields] @returns {boolean} whether there is such a place */
  #turnTo(place, go, fields) {
    const found = embed.find(place, fields);
    if (found) go(found.where.screen, found.filled ? found.where.fields : undefined);
    return found !== null;
  }

  /** Puts what is filled in to the core. */
  #answer() {
    const { screen, fields, core } = this.#state;
    if (core === "starting" || core === "failed") return;
    if (screen === "about") return void (this.#state.answers = []);
    // Of the place Sets the sheets are the question, which is nobody else's business.
    const asked = placeOf(screen) === "sets" ? [] : questions(screen, fields[screen]);
    const put = () => (placeOf(screen) === "sets" ? this.#sets.answer(screen, fields[screen]) : asked.map((question) => this.#ask(question)));
    try {
      const answers = put();
      this.#state.answers = answers;
      const row = this.#ask({ ask: "row", type: "-" });
      if (row.answer === "row") this.#state.columns = row.columns;
      this.#state.core = "ready";
      this.#tellAnswers(asked);
      if (screen === "book") this.#list(fields.book.find ?? "");
      if (screen === "row") this.#state.foreseen = this.#state.answers[0]?.answer === "row" ? said(this.#bench.check(whole(this.#rows())), []) : null;
    } catch (reason) {
      console.error(reason);
      this.#state.answers = [];
      this.#recover(put, asked);
    }
  }

  /** The instance trapped, a fault of ours: a new one, and the question again. @param {() => import("./answers").Answer[]} put @param {import("./answers").Question[]} asked */
  async #recover(put, asked) {
    try {
      await this.#bench.recover();
    } catch (reason) {
      this.#fail(reason);
      return;
    }
    try {
      const answers = put();
      this.#set({ core: "ready", answers, notice: { says: WORDS.restarted } });
      this.#tellAnswers(asked);
    } catch (reason) {
      console.error(reason);
      embed.tell(this, "error", /** @type {embed.Trouble} */ ({ what: "trap", says: words(reason) }));
      await this.#bench.recover();
      this.#set({ core: "trapped", answers: [] });
    }
  }

  /** @param {unknown} reason why there is no core */
  #fail(reason) {
    this.#set({ core: "failed", reason: words(reason) });
    embed.tell(this, "error", /** @type {embed.Trouble} */ ({ what: "core", says: words(reason) }));
  }

  /** @param {import("./answers").Question[]} asked answered with what stands in the state */
  #tellAnswers(asked) {
    const place = embed.placeOf(this.#where());
    asked.forEach((question, at) => embed.tell(this, "answer", /** @type {embed.Answered} */ ({ question, answer: this.#state.answers[at], place })));
  }

  /** The rows of the form, with what was typed over them. */
  #rows() {
    const { answers, drafts, fields } = this.#state;
    return answers[0]?.answer === "row" ? rowsOf(answers[0], drafts[fields.row.type] ?? {}) : [];
  }

  /** Types over cells of a row, or forgets what was typed. @param {import("./csv.js").Draft | null} cells @param {string} [type] */
  #draft(cells, type = this.#state.fields.row.type) {
    const { [type]: before, ...drafts } = this.#state.drafts;
    this.#state.drafts = cells ? { ...drafts, [type]: { ...before, ...cells } } : drafts;
    this.#remember();
  }

  /** The user's rows as a list, with what was shipped beside those that are shown. @param {string} find */
  #list(find) {
    const own = this.#ask({ ask: "own", find, limit: LISTED });
    if (own.answer !== "own") return;
    const shown = own.shown.map((item) => {
      const row = item.table === "tubes" ? this.#ask({ ask: "row", type: item.name }) : null;
      return { ...item, row: row?.answer === "row" ? row : null };
    });
    this.#state.own = { ...own, shown };
  }

  /** Goes on to the next file that waits. */
  async #next() {
    this.#reading = null;
    const one = this.#waiting.shift();
    this.#set({ incoming: null });
    if (one === undefined) return;
    const name = typeof one === "string" ? WORDS.book.pasted : one.name;
    const whole = (this.#reading = {});
    this.#set({ incoming: { name, table: "", csv: "", done: 0, report: null } });
    try {
      const csv = typeof one === "string" ? one : text(await one.arrayBuffer());
      if (this.#reading === whole) await this.#look({ name, csv, table: "" });
    } catch (reason) {
      this.#set({ notice: { says: WORDS.book.notRead(name, words(reason)) } });
      this.#next();
    }
  }

  /** Reads a file by and by, and shows what it would do. @param {{ name: string, table: Table | "", csv: string }} file @returns {Promise<void>} */
  async #look({ name, table, csv }) {
    const reading = (this.#reading = {});
    const incoming = { name, table, csv, done: 0, report: null };
    this.#set({ incoming });
    await this.#started;
    await this.#turn;
    const report = await this.#bench.look(incoming, (done) => {
      if (this.#reading !== reading) return false;
      if (Math.floor(done * 100) > Math.floor((this.#state.incoming?.done ?? 0) * 100)) this.#set({ incoming: { ...incoming, done } });
      return true;
    });
    if (this.#reading !== reading) return;
    if (!report) return this.#look(incoming);
    this.#speak();
    this.#set({ incoming: { ...incoming, table: report.answer === "error" ? table : /** @type {Table} */ (report.table), done: 1, report: said(report, []) } });
    if (this.#state.screen !== "book") this.#set({ notice: { says: WORDS.book.read(name), button: WORDS.book.see, press: () => this.#see() } });
  }

  #see() {
    this.#set({ notice: null });
    this.verbs.go("book");
  }

  /** Does one thing to the book after the other. @param {() => Promise<void>} work */
  #inTurn(work) {
    this.#turn = this.#turn.then(() => this.#started).then(work).catch(async (reason) => {
      console.error(reason);
      await this.#bench.recover();
      this.#set({ notice: { says: WORDS.book.failed(words(reason)) } });
    });
  }

  /** Changes the book, keeps it, and offers the way back. @param {() => Promise<string>} work gives what was done */
  #change(work) {
    this.#inTurn(async () => {
      const before = this.#bench.rows();
      const says = await work();
      const undo = () => this.#inTurn(async () => {
        await this.#lay(before);
        this.#set({ notice: null });
        await this.#keep();
      });
      this.#answer();
      this.#set({ notice: { says, button: WORDS.undo, press: undo } });
      await this.#keep();
    });
  }

  /** Makes the book anew: the shipped one, and over it these rows. @param {Own} own */
  async #lay(own) {
    await this.#bench.start(parts(own), (done) => this.#laying(done));
    const { incoming } = this.#state;
    this.#answer();
    this.#set({ notice: null });
    // Its instance is gone.
    if (incoming?.csv) this.#look(incoming);
  }

  /** A large book says how far it is. @param {number} done */
  #laying(done) {
    if (done < 1) this.#set({ notice: { says: WORDS.book.laying(Math.floor(done * 100)) } });
    else if (this.#state.notice && !this.#state.notice.press) this.#set({ notice: null });
  }

  /** Takes the book as it was last kept, when that is another. */
  #renew() {
    this.#inTurn(async () => {
      // Where nothing can be read, the book stays.
      const own = await keep.book().then((kept) => kept.own, () => undefined);
      if (own && JSON.stringify(own) !== JSON.stringify(this.#bench.rows())) await this.#lay(own);
    });
  }

  async #keep() {
    if (embed.keepsNothing(this)) return;
    try {
      await keep.keepBook(this.#bench.rows());
      this.#others?.postMessage(0);
    } catch (reason) {
      this.#set({ notice: { says: WORDS.book.notKept(words(reason)) } });
      embed.tell(this, "error", /** @type {embed.Trouble} */ ({ what: "storage", says: words(reason) }));
    }
  }

  /** What was kept from the last visit; the address says more and wins. */
  #recall() {
    const storage = embed.keepsNothing(this) ? "off" : "on";
    const kept = storage === "on" ? keep.recall(this.id) : {};
    const fields = blank();
    for (const sheet of SHEETS) {
      for (const name of FIELDS[sheet]) {
        const text = kept.fields?.[sheet]?.[name];
        if (typeof text === "string") fields[sheet][name] = text;
      }
    }
    const theme = embed.themeOf(this.getAttribute("theme")) ?? embed.themeOf(kept.theme ?? null) ?? "device";
    const words = wordingOf(kept.words);
    const screen = SHEETS.find((sheet) => sheet === kept.sheet) ?? "swap";
    const drafts = kept.drafts && typeof kept.drafts === "object" ? kept.drafts : {};
    const offline = location.protocol === "file:" || Boolean(navigator.serviceWorker?.controller);
    this.#state = { ...this.#state, fields, theme, words, screen, drafts, asked: kept.asked === true, offline, storage };
    this.#turnTo(this.getAttribute("place"), (screen, given) => this.#at({ screen, fields: given ?? (screen === "about" ? {} : fields[screen]) }));
    const where = this.#addressed ? address.read(location.hash) : null;
    if (!where) return this.#write("replace");
    this.#at(where);
  }

  #remember() {
    const { theme, words, asked, screen, fields, drafts } = this.#state;
    const sheet = screen === "about" || placeOf(screen) === "book" ? "swap" : screen;
    // Before the first own question only examples were filled in, which nobody wants to find again.
    const kept = { theme, words, asked, sheet: asked ? sheet : "swap", fields: asked ? fields : blank(), drafts };
    if (this.#state.storage === "on" && !keep.remember(kept, this.id)) this.#state.storage = "refused";
  }

  /** @param {address.Where} where */
  #at({ screen, fields }) {
    this.#state = { ...this.#state, screen, menu: false, telling: false };
    if (screen !== "about") this.#state.fields = { ...this.#state.fields, [screen]: fields };
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

  /** @returns {address.Where} what is open, and what is filled in there */
  #where() {
    const { screen, fields } = this.#state;
    return { screen, fields: screen === "about" ? {} : fields[screen] };
  }

  /** @param {"push" | "replace"} how */
  #write(how) {
    this.#remember();
    const hash = address.write(this.#where());
    if (!this.#addressed || hash === location.hash) return;
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

  /** Goes to a field, also where it is folded away. @param {string} name */
  #focus(name) {
    this.#reach(this.#field(name));
  }

  /** @param {HTMLElement | null} one */
  #reach(one) {
    for (let fold = one?.closest("details"); fold; fold = fold.parentElement?.closest("details")) fold.open = true;
    one?.focus();
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

/** The text of a file: UTF-8, UTF-16 with its mark, or what spreadsheets on Windows write. @param {ArrayBuffer} bytes */
const text = (bytes) => {
  const [first, second] = new Uint8Array(bytes, 0, Math.min(2, bytes.byteLength));
  if (first === 0xff && second === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
};

// Another copy of this module may have come first.
if (!customElements.get("stand-in")) customElements.define("stand-in", StandIn);
