// How a sentence reads in Britain: the same sentence with the trade's other words in it. One table of whole words and phrases; what is
// not in it stays as it is. A word with two meanings ("line" is the mains, a line of a list or of AGC) stands here in phrases only, and a
// test over everything that page and core say fails when one of them is neither turned nor listed as staying.

/** American, British; `#` stands for a figure. Without a British side the phrase stays. @type {[string, string?][]} */
export const TABLE = [
  ["tube", "valve"],
  ["tubes", "valves"],
  ["beam tube", "beam tetrode"],
  // Shapes of parts; the glass of a television.
  ["paper tube"],
  ["ceramic tube"],
  ["picture tube"],

  ["plate", "anode"],
  ["plates", "anodes"],
  ["nameplate", "rating plate"],
  ["rating plate"],
  // Of a selenium stack, and of a beam tetrode.
  ["# plates"],
  ["plates in the stack"],
  ["the plates were not counted"],
  ["scrape the plates"],
  ["a fresh plate"],
  ["beam plates"],

  ["B+", "HT"],
  ["B-", "HT negative"],
  ["the common bus (B-)", "HT negative"],
  ["common bus (B-)", "HT negative"],
  ["the common bus", "HT negative"],
  ["antenna", "aerial"],
  ["ground", "earth"],
  ["grounded", "earthed"],
  ["hot chassis", "live chassis"],
  ["shield can", "screening can"],
  ["isolation transformer", "isolating transformer"],

  ["transconductance", "mutual conductance"],
  ["conversion transconductance", "conversion conductance"],

  ["first filter", "reservoir capacitor"],
  ["first filter capacitor", "reservoir capacitor"],
  ["electrolytic capacitor, first filter", "electrolytic capacitor, reservoir"],
  ["second filter", "smoothing capacitor"],
  ["filter capacitor", "smoothing capacitor"],
  ["filter capacitors", "smoothing capacitors"],
  ["filter resistor", "smoothing resistor"],
  ["after the filter", "after the smoothing"],
  ["through the filter", "through the smoothing"],

  ["the line", "the mains"],
  ["the whole line", "the whole mains"],
  ["the bare line", "the bare mains"],
  ["nominal line", "nominal mains"],
  ["a high line", "high mains"],
  ["a low, nominal and high line", "low, nominal and high mains"],
  ["a # V line", "# V mains"],
  ["# V line", "# V mains"],
  ["a DC line", "DC mains"],
  ["line, as measured", "mains, as measured"],
  ["line is", "mains is"],
  ["passes the line on", "passes the mains on"],
  ["shorted filter or bypass capacitor", "shorted smoothing or bypass capacitor"],
  ["a line # %", "mains # %"],
  ["a line of", "mains of"],
  ["a line that", "mains that"],
  ["a line it", "a mains voltage it"],
  ["a line and load", "a supply and load"],
  ["another line", "another mains voltage"],
  ["this line", "this supply"],
  ["power line", "mains"],
  ["AC line", "mains"],
  ["across line", "across mains"],
  ["line to chassis", "mains to chassis"],
  ["line bypass", "mains bypass"],
  ["line volts", "mains volts"],
  ["line voltage", "mains voltage"],
  ["line frequency", "mains frequency"],
  ["line fuse", "mains fuse"],
  ["line lead", "mains lead"],
  ["line side", "mains side"],
  ["line end", "mains end"],
  ["line, load", "mains, load"],
  ["line, cord and plug", "mains, lead and plug"],
  // A resistance cord has this name in both countries.
  ["line cord and plug", "mains lead and plug"],
  ["line cord"],
  ["line cords"],
  ["line-cord"],
  // Lines of a list or a file, and the line of AGC.
  ["# line"],
  ["# lines"],
  ["line #"],
  ["a line"],
  ["one part a line"],
  ["every line"],
  ["some lines"],
  ["your line"],
  ["first line names"],
  ["lines of a parts list"],
  ["correct the line"],
  ["begin the line"],
  ["to the lines"],
  ["several lines"],
  ["these lines"],
  ["the line does not say"],
  ["AGC line"],
  ["AGC (AVC) line"],
];

/** Words that have one meaning where nothing stands beside them. @type {Record<string, string>} */
const ALONE = { line: "mains", Line: "Mains" };

const escaped = (/** @type {string} */ text) => text.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
const FIGURE = /\d(?:[\d.,/]*\d)?/;
const TURNED = new Map(TABLE.map(([us, gb]) => [us.toLowerCase(), gb ?? ""]));
const PHRASES = TABLE.map(([us]) => escaped(us).replace("#", FIGURE.source)).sort((one, other) => other.length - one.length).join("|");
// A phrase with its article goes before one without. Never a part of a longer word, of a path (`original.plates`, `tubes[2]`) or a file name, nor what is quoted to be typed
// or one of several words to choose from (`tubes | names`).
const PATTERN = new RegExp(`\`[^\`]*\`|(?<![\\w.#]|\\| )(?:(${PHRASES})|(an? )(${PHRASES}))(?![\\w[]|\\.\\w| \\|)`, "gi");

/** @param {string} whole @param {string} [alone] @param {string} [article] @param {string} [after] */
const turned = (whole, alone = "", article = "", after = "") => {
  const phrase = alone || after;
  const figure = FIGURE.exec(phrase)?.[0] ?? "";
  const said = TURNED.get(figure ? phrase.toLowerCase().replace(figure, "#") : phrase.toLowerCase())?.replace("#", figure);
  if (!said) return whole;
  const before = article && (/^([aeiou]|HT)/.test(said) ? "an " : "a ");
  const text = before + said;
  // "AC line" and "B+" are no beginning of a sentence.
  return /^[A-Z][a-z ]/.test(whole) ? text[0].toUpperCase() + text.slice(1) : text;
};

/**
 * A sentence in British words.
 * @param {string} text
 * @param {string[]} [typed] what the user wrote: where the sentence repeats it, it stays as he wrote it
 * @returns {string}
 */
export const uk = (text, typed = []) => {
  if (Object.hasOwn(ALONE, text) && !typed.includes(text)) return ALONE[text];
  const kept = typed.filter((one) => one.trim() && one.replace(PATTERN, turned) !== one).sort((one, other) => other.length - one.length);
  if (!kept.length) return text.replace(PATTERN, turned);
  const parts = text.split(new RegExp(`(?<!\\w)(${kept.map(escaped).join("|")})(?!\\w)`));
  return parts.map((part, at) => (at % 2 ? part : part.replace(PATTERN, turned))).join("");
};

/** Every text in a value, however deep. @param {unknown} value @returns {string[]} */
const textsOf = (value) => {
  if (typeof value === "string") return [value];
  return value && typeof value === "object" ? Object.values(value).flatMap(textsOf) : [];
};

/** A text of the page; of one that is made of others those stay as they are. @template T @param {T} words @returns {T} */
export const ukWords = (words) => {
  if (typeof words === "string") return /** @type {any} */ (uk(words));
  if (typeof words !== "function") return words;
  return /** @type {any} */ ((/** @type {unknown[]} */ ...given) => uk(words(...given), textsOf(given)));
};

/** What stands under these keys of an answer is read by people: sentences, labels, names of parts. */
export const SAID = new Set([
  "accepted", "advice", "assumed", "buy", "check", "construction", "designation", "dielectric", "doubtful", "electrode", "expect", "figures", "found", "function", "group",
  "impossible", "is", "layout", "marks", "measure", "notes", "open", "otherwise", "part", "reads", "says", "shop", "supply_words", "topic", "unsure", "wanted", "what", "why", "word",
  "words", "work",
]);
/** What stands under these is a key, a figure, a name, a cell of the book or what the user wrote. */
export const KEPT = new Set([
  "answer", "bands", "base", "basing", "changed_names", "code", "column", "danger_pins", "field", "file", "fitted", "found_today", "from", "heater", "key",
  "line", "marked", "marking", "markings", "measured", "name", "names", "near", "new", "new_names", "not_found", "note", "old", "one_of", "only", "outcome",
  "pin", "place", "places", "rating", "reference", "safety_class", "sheet", "shipped", "source", "state", "supply", "table", "tested", "text", "to", "type",
  "typed", "types", "unit", "unused", "value", "wants", "ways",
]);
/** What the user wrote down of his sets. */
const SHEETS = "sheets";
/** On a drawing a plate is `p`, an anode `a`. */
const LABEL = "label";

/** What the user wrote, in a record of an answer: beside `accepted` stands what was found instead, and a list repeats its lines. */
const typedIn = (/** @type {Record<string, unknown>} */ { accepted, found, text, typed, unused }) =>
  textsOf([accepted === undefined ? [] : found, text, typed, unused]);

/**
 * An answer of the core in British words.
 * @template T
 * @param {T} value
 * @param {string[]} typed what the user wrote
 * @param {string} [key] under which it stands
 * @returns {T}
 */
export const ukAnswer = (value, typed, key = "") => {
  const told = /** @type {unknown} */ (value);
  if (typeof told === "string") {
    const text = key === LABEL ? told.replace(/\bp\b/g, "a") : SAID.has(key) ? uk(told, typed) : told;
    return /** @type {T} */ (text);
  }
  if (Array.isArray(told)) return /** @type {any} */ (told.map((one) => ukAnswer(one, typed, key)));
  // A sheet comes back as its owner wrote it.
  if (!told || typeof told !== "object" || key === SHEETS) return value;
  // A remark of the book is its owner's.
  const record = /** @type {Record<string, unknown>} */ (told);
  if (record.check === "note") return value;
  const own = typedIn(record);
  const entries = Object.entries(record).map(([name, one]) => [
    name,
    name === "found" && record.accepted !== undefined ? one : ukAnswer(one, name === "says" ? [...typed, ...own] : typed, name),
  ]);
  return /** @type {any} */ (Object.fromEntries(entries));
};
