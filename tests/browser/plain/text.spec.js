// Text to questions and addresses, without a browser.
import { expect, test } from "@playwright/test";
import * as address from "../../../www/address.js";
import { fieldOf, number, ohms, questions } from "../../../www/questions.js";
import { FIELDS, SHEETS } from "../../../www/sheets.js";

test("an address and its state are the same thing", () => {
  const odd = "a b+c&d=e#f?g%é<i>";
  for (const screen of SHEETS) {
    const fields = Object.fromEntries(FIELDS[screen].map((name) => [name, `${name} ${odd}`]));
    expect(address.read(address.write({ screen, fields }))).toEqual({ screen, fields });
  }
  for (const screen of ["book", "about"]) expect(address.read(address.write({ screen, fields: {} }))).toEqual({ screen, fields: {} });
});

test("an address that is not ours is left alone, unknown fields are dropped", () => {
  expect(address.read("")).toBeNull();
  expect(address.read("#elsewhere?set=12SK7")).toBeNull();
  expect(address.read("#tube?set=12SK7&__proto__=x&colour=red")).toEqual({ screen: "swap", fields: { set: "12SK7" } });
  expect(address.read("#supply")).toEqual({ screen: "rectifier", fields: {} });
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
