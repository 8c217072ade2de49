// British words: what the table does, and that nothing the page or the core says slips past it.
import { readFileSync, readdirSync } from "node:fs";
import { expect, test } from "@playwright/test";
import * as address from "../../../www/address.js";
import { questions } from "../../../www/questions.js";
import { Bench, initSync } from "../../../www/stand_in.js";
import { KEPT, SAID, TABLE, uk, ukAnswer } from "../../../www/uk.js";
import { said, speak, usual } from "../../../www/wording.js";
import { EXAMPLES, WORDS } from "../../../www/words.js";
import { SCREENS } from "../bench.js";

const read = (path) => readFileSync(new URL(`../../../${path}`, import.meta.url), "utf8");

/** Words an Englishman would stop at, and those with two meanings. */
const AMERICAN = /(?<![\w-])(tubes?|name-?plates?|plates?|B[+-]|lines?|filters?|(?:un)?ground(?:ed)?|antennas?|outlets?|wall|schematics?|vacuum tubes?|hot chassis|color)(?![\w])/i;

const figures = (phrase) => phrase.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&").replace("#", "\\d(?:[\\d.,/]*\\d)?");
const stay = TABLE.filter(([, gb]) => !gb).map(([us]) => figures(us)).sort((one, other) => other.length - one.length);
const STAYING = new RegExp(`(?<!\\w)(?:${stay.join("|")})(?!\\w)`, "gi");

/** What of a sentence is American once what is to stay is taken out. */
const american = (text) => AMERICAN.exec(uk(text).replace(/`[^`]*`|\w+\.csv|\w+ \| [^;,.]*/g, "").replace(STAYING, ""))?.[0] ?? "";


/** Every text of the page; of those that are made of others, what stands between. */
const ofPage = (words) => {
  if (typeof words === "string") return [words];
  if (typeof words === "function") {
    const inside = [...words.toString().replace(/\/\*.*?\*\//g, "").matchAll(/`([^`]*)`|"([^"]*)"/g)];
    return inside.map(([, made, plain]) => made?.replace(/\$\{(?:[^{}]|\{[^{}]*\})*\}/g, "9") ?? plain);
  }
  return Object.entries(words).flatMap(([name, one]) => (name === "fields" ? [] : ofPage(one)));
};

/** Every sentence that stands in the core, with a figure where one is put in. */
const ofCore = () => {
  const files = readdirSync(new URL("../../../src", import.meta.url), { recursive: true }).filter((file) => /(?<!tests)\.rs$/.test(file));
  const TOKEN = /\/\/.*|'(?:\\.|[^'\\])'|"((?:\\[\s\S]|[^"\\])*)"/g;
  return files.flatMap((file) => {
    const [code] = read(`src/${file}`).split("#[cfg(test)]\nmod");
    return [...code.matchAll(TOKEN)]
      .map(([, text]) => (text ?? "").replace(/\\\n\s*/g, "").replace(/\\"/g, '"').replace(/\{[^{}]*\}(?=\]| lines\b)/g, "9").replace(/\{[^{}]*\}|#(?=\.| on)/g, "9 V"))
      // A word alone is looked at where it is answered: there it has its key.
      .filter((text) => text.trim().includes(" "));
  });
};

test("sentences that show each rule", () => {
  for (const [us, gb] of [
    ["Tube", "Valve"],
    ["A tube that wants more bias, two tubes", "A valve that wants more bias, two valves"],
    ["a plate load", "an anode load"],
    ["Plate and screen volts", "Anode and screen volts"],
    ["grid-plate capacitance", "grid-anode capacitance"],
    ["B+ at the first filter", "HT at the reservoir capacitor"],
    ["B+: the wattage of the filter resistor", "HT: the wattage of the smoothing resistor"],
    ["from the common bus (B-) to the chassis", "from HT negative to the chassis"],
    ["on a line of", "on mains of"],
    ["at the first filter on a 120 V line; 118 V", "at the reservoir capacitor on 120 V mains; 118 V"],
    ["On a line 10 % high: 190 V", "On mains 10 % high: 190 V"],
    ["Line voltage", "Mains voltage"],
    ["line", "mains"],
    // What stays.
    ["line cord 180 ohm", "line cord 180 ohm"],
    ["on the AGC (AVC) line", "on the AGC (AVC) line"],
    ["27 lines: 17 to buy for", "27 lines: 17 to buy for"],
    ["Line 12", "Line 12"],
    ["a fresh selenium stack of 5 plates", "a fresh selenium stack of 5 plates"],
    ["a paper tube with bands", "a paper tube with bands"],
    ["beam plates", "beam plates"],
    ["`tubes` is missing; say `plates`", "`tubes` is missing; say `plates`"],
    ["tubes[2] and original.plates in tubes.csv, plate_max_v", "tubes[2] and original.plates in tubes.csv, plate_max_v"],
    ["tube | row | swap, or tubes | names", "tube | row | swap, or tubes | names"],
    ["12SK7GT, 6L6-G, 1B3", "12SK7GT, 6L6-G, 1B3"],
    ["heater, chassis, rectifier, volume control", "heater, chassis, rectifier, volume control"],
  ]) {
    expect(uk(us), us).toBe(gb);
    // Said twice it is said the same.
    expect(uk(gb), gb).toBe(gb);
  }
});

test("what the user wrote stays as he wrote it", () => {
  expect(uk("The plate: found plate load; accepted: a plate.", ["plate load"])).toBe("The anode: found plate load; accepted: an anode.");
  const error = { field: "marking", found: "first filter", accepted: "a tube", says: "`marking` is first filter; accepted: a tube." };
  expect(ukAnswer(error, [])).toEqual({ field: "marking", found: "first filter", accepted: "a valve", says: "`marking` is first filter; accepted: a valve." });
  // Elsewhere what was found is a figure of ours.
  expect(ukAnswer({ check: "B+", found: "5 V of tube drop", says: "B+ rises." }, [])).toEqual({ check: "HT", found: "5 V of valve drop", says: "HT rises." });
  expect(ukAnswer({ check: "note", says: "The book on 9ZZ9: my best tube." }, [])).toEqual({ check: "note", says: "The book on 9ZZ9: my best tube." });
  speak("uk");
  expect(WORDS.swap.readAs("line tube", "12SK7")).toBe("line tube is found in the book as 12SK7.");
  expect(WORDS.places.tube).toBe("Valve");
  expect(said({ answer: "error", says: "plate bypass is not in the book." }, { ask: "tube", type: "plate bypass" }).says).toBe("plate bypass is not in the book.");
  speak("us");
  expect(WORDS.places.tube).toBe("Tube");
});

test("a device speaks the words of its country", () => {
  for (const [language, words] of [["en-US", "us"], ["en", "us"], ["de-DE", "us"], ["", "us"], ["en-CA", "us"], ["en-GB", "uk"], ["en-gb", "uk"], ["en-IE", "uk"], ["en-AU", "uk"], ["en-NZ", "uk"], ["en-ZA", "uk"], ["en-IN", "uk"]]) {
    expect(usual(language), language).toBe(words);
  }
});

test("nothing the page says has a word that is neither turned nor meant to stay", () => {
  const all = [...ofPage(WORDS), ...ofPage(EXAMPLES)].filter((text) => !/^C1 |^\]/.test(text));
  expect(all.length).toBeGreaterThan(500);
  expect(all.map((text) => [american(text), text]).filter(([word]) => word)).toEqual([]);
});

test("nor has anything that stands in the core", () => {
  const all = ofCore();
  expect(all.length).toBeGreaterThan(400);
  expect(all.map((text) => [american(text), text]).filter(([word]) => word)).toEqual([]);
});

/** Types of the declarations with their fields that hold texts. */
const texts = () => {
  const declared = read("www/answers.d.ts").replace(/\/\*[\s\S]*?\*\//g, "");
  const types = Object.fromEntries([...declared.matchAll(/export type (\w+) = ([\s\S]*?);\s*(?=export type|$)/g)].map(([, name, body]) => [name, body]));
  const seen = new Set();
  const walk = (name) => {
    // What the user wrote down of a set is not turned.
    if (seen.has(name) || !types[name] || name === "JobSheet") return;
    seen.add(name);
    for (const [word] of types[name].matchAll(/\b[A-Z]\w+\b/g)) walk(word);
  };
  for (const root of ["Answer", "LoadReport"]) walk(root);
  expect(seen.size).toBeGreaterThan(40);
  const enums = [...seen].filter((name) => /^"/.test(types[name]));
  return [...seen].filter((name) => !enums.includes(name)).flatMap((name) =>
    [...types[name].matchAll(/"?(\w+)"?\??: ([^,;{}[\]]*(?:\[[^\]]*\])?[^,;{}]*)/g)]
      .filter(([, , type]) => /\bstring\b/.test(type) || enums.some((one) => new RegExp(`\\b${one}\\b`).test(type)))
      .map(([, field, type]) => ({ name, field, type })),
  );
};

test("every text of an answer is on one of the two lists", () => {
  const all = texts();
  expect(all.length).toBeGreaterThan(100);
  const chosen = /^(Grade|Mark|Outcome|LineState|CapacitorKind|Joined|Danger|SheetSection|BringUpMoment)$/;
  for (const { name, field, type } of all) {
    if (chosen.test(type.trim()) || field === "label") continue;
    expect(Number(SAID.has(field)) + Number(KEPT.has(field)), `${name}.${field} is on SAID or on KEPT of www/uk.js`).toBe(1);
  }
  const fields = new Set([...all.map(({ field }) => field), "answer", "outcome"]);
  expect([...SAID, ...KEPT].filter((name) => !fields.has(name)), "on a list and in no answer").toEqual([]);
});

test.describe("what the core answers", () => {
  test.beforeAll(() => void initSync({ module: readFileSync(new URL("../../../www/stand_in_bg.wasm", import.meta.url)) }));

  /** Every text under a key that is read by people. */
  const read = (value, key = "", user = []) => {
    if (typeof value === "string") return SAID.has(key) ? [value] : [];
    if (!value || typeof value !== "object") return [];
    if (Array.isArray(value)) return value.flatMap((one) => read(one, key));
    if (value.check === "note" || value.accepted !== undefined) return [];
    return Object.entries(value).flatMap(([name, one]) => read(one, name));
  };

  test("has no American word left on any screen", () => {
    const bench = new Bench();
    let count = 0;
    const kitchen = [...EXAMPLES.first, ...EXAMPLES.kitchen];
    const asked = [...Object.values(SCREENS).map((hash) => address.read(hash)).filter(Boolean), ...kitchen];
    for (const { screen, fields } of asked) {
      if (screen === "about") continue;
      for (const question of questions(screen, fields)) {
        const answer = JSON.parse(bench.ask(JSON.stringify(question)));
        const all = read(answer);
        count += all.length;
        const left = all.filter((text) => american(text)).map((text) => `${text} -> ${uk(text)}`);
        expect(left, JSON.stringify(question).slice(0, 120)).toEqual([]);
        // Nothing but words changes: grades, figures, names, keys.
        const turned = ukAnswer(answer, []);
        const bare = (value) => JSON.stringify(value, (name, one) => (SAID.has(name) || name === "label" ? undefined : one));
        expect(bare(turned)).toBe(bare(answer));
        // And a part that the drawing knows by its word keeps it.
        for (const tube of [answer.tube, answer.original].filter(Boolean)) {
          expect(ukAnswer(tube, []).pins.map(({ part }) => part)).toEqual(tube.pins.map(({ part }) => part));
        }
      }
    }
    expect(count).toBeGreaterThan(2000);
  });

  test("pins have the letters of the country", () => {
    const { tube } = JSON.parse(new Bench().ask(JSON.stringify({ ask: "tube", type: "12AX7" })));
    const label = (one) => one.pins.map((pin) => pin.label);
    expect(label(tube)).toContain("p (1)");
    expect(label(ukAnswer(tube, []))).toContain("a (1)");
    expect(ukAnswer({ label: "bp+k" }, []).label).toBe("bp+k");
  });
});
