// Text to questions and addresses, without a browser.
import { expect, test } from "@playwright/test";
import * as address from "../../../www/address.js";
import { fieldOf, number, ohms, questions } from "../../../www/questions.js";
import { changes, rowsOf } from "../../../www/csv.js";
import { FIELDS, SHEETS } from "../../../www/sheets.js";

test("an address and its state are the same thing", () => {
  const odd = "a b+c&d=e#f?g%é<i>";
  for (const screen of SHEETS) {
    const fields = Object.fromEntries(FIELDS[screen].map((name) => [name, `${name} ${odd}`]));
    expect(address.read(address.write({ screen, fields }))).toEqual({ screen, fields });
  }
  expect(address.read(address.write({ screen: "about", fields: {} }))).toEqual({ screen: "about", fields: {} });
});

test("an address that is not ours is left alone, unknown fields are dropped", () => {
  expect(address.read("")).toBeNull();
  expect(address.read("#elsewhere?set=12SK7")).toBeNull();
  expect(address.read("#tube?set=12SK7&__proto__=x&colour=red")).toEqual({ screen: "swap", fields: { set: "12SK7" } });
  expect(address.read("#supply")).toEqual({ screen: "rectifier", fields: {} });
  expect(address.read("#tube?set=12SK7")).toEqual({ screen: "swap", fields: { set: "12SK7" } });
  expect(address.read("#book")).toEqual({ screen: "book", fields: {} });
});

test("figures with point, comma and multiple", () => {
  const cases = [["120", 120], [" 0,15 ", 0.15], ["", undefined], ["   ", undefined], ["lots", "lots"], ["1e400", "1e400"]];
  for (const [text, value] of cases) expect(number(text), text).toBe(value);
  const resistances = [["560k", 560000], ["1.2 M", 1.2e6], ["0,56M", 560000], ["2.2meg", 2.2e6], ["47", 47], ["47 ohm", 47], ["4k7", "4k7"], ["", undefined]];
  for (const [text, value] of resistances) expect(ohms(text), text).toBe(value);
});

test("nothing is asked while too little is filled in", () => {
  expect(questions("swap", {})).toEqual([]);
  expect(questions("swap", { heaters: "series" })).toEqual([]);
  expect(questions("rectifier", { first_uf: "40" })).toEqual([]);
  expect(questions("rectifier", { original: "tube", first_uf: "40", load_ma: "60" })).toEqual([]);
  expect(questions("heaters", { tubes: " , " })).toEqual([]);
});

test("an empty field is left out, never sent as nothing or as zero", () => {
  expect(questions("swap", { set: "12SK7", have: "12SG7", plate_v: " " })).toEqual([{ ask: "swap", original: "12SK7", candidate: "12SG7" }]);
  expect(questions("rectifier", { first_uf: "40", load_ma: "60", original: "" })).toEqual([{ ask: "rectifier", first_filter_uf: 40, load_ma: 60 }]);
});

test("looked and found nothing differs from not looked", () => {
  const ties = (fields) => questions("swap", { set: "a", have: "b", ...fields })[0].socket?.tie_points;
  expect(ties({})).toBeUndefined();
  expect(ties({ ties: "none" })).toEqual([]);
  expect(ties({ ties: "some", tie_pins: "1, 6 cap" })).toEqual([1, 6, 0]);
});

test("errors of the core find their blank", () => {
  expect(fieldOf("swap", "original")).toBe("set");
  expect(fieldOf("swap", "type")).toBe("set");
  expect(fieldOf("swap", "socket.supply.others[2]")).toBe("others");
  expect(fieldOf("swap", "socket.plate_v")).toBe("plate_v");
  expect(fieldOf("rectifier", "original.type")).toBe("type");
  expect(fieldOf("heaters", "tubes[3]")).toBe("tubes");
});

test("of a row only what was typed over goes into the book, of a new type all of it", () => {
  const column = (name) => ({ column: name, words: name, unit: "", one_of: [], of_bulb: false });
  const answer = (from) => ({
    type: "77ZZ7",
    columns: ["type", "unit", "heater_v", "note"].map(column),
    rows: [{ from, cells: [{ text: "77ZZ7" }, { text: "1" }, { text: "6.3", shipped: "6.4" }, { text: "" }] }],
  });
  const lines = (from, draft) => changes(rowsOf(answer(from), draft), from === "empty").split("\n").slice(0, -1);
  expect(lines("own", {})).toEqual([]);
  expect(lines("own", { "0.heater_v": " 6.3 " })).toEqual([]);
  expect(lines("own", { "0.note": 'a "b"' })).toEqual(['"type","unit","note"', '"77ZZ7","1","a ""b"""']);
  expect(lines("own", { "1.unit": "2", "1.note": "second" })).toEqual(['"type","unit","note"', '"77ZZ7","2","second"']);
  expect(rowsOf(answer("own"), {})[0].map(({ shipped }) => shipped)).toEqual(["77ZZ7", "1", "6.4", ""]);
  // A type that is new has nothing beside it.
  const fresh = answer("empty");
  delete fresh.rows[0].cells[2].shipped;
  expect(rowsOf(fresh, {})[0].map(({ shipped }) => shipped)).toEqual([undefined, undefined, undefined, undefined]);
  expect(lines("empty", {})).toEqual(['"type","unit"', '"77ZZ7","1"']);
});
