// What the tests share: a server of its own for every worker, the page opened at an address, and the few places every test looks at.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test as base } from "@playwright/test";
import { serve } from "../../scripts/serve.mjs";

export { expect };
export const WWW = fileURLToPath(new URL("../../www", import.meta.url));
const AXE = fileURLToPath(import.meta.resolve("axe-core/axe.min.js"));

/** @typedef {ReturnType<typeof bench>} Bench */

/** The sheet of a set that is made up: five tubes, a supply, parts of every kind, one line that cannot be read. */
export const DEMO = {
  name: "kitchen set", note: "made up", heaters: "series", line_v: "120", line_hz: "60", designed_v: "", winding_v: "", winding_a: "", lines: "",
  tubes: [["V1", "12SA7", "good"], ["V2", "12SK7", "dead"], ["V3", "12SQ7", "weak"], ["V4", "50L6GT", "good"], ["V5", "35Z5GT", ""]]
    .map(([place, type, state]) => ({ key: place, place, type, state, fitted: "", note: "" })),
  supply: { original: "tube", type: "35Z5GT", first_uf: "40", load_ma: "70", rated_v: "150" },
  parts: [
    ["C1", ".05 mfd 400 V", "line_to_chassis"], ["C2", ".02 mfd 400v", "coupling"], ["C3", "40-20/150", "first_filter"], ["R1", "500k 20%", "plate_load"],
    ["", "smudged, brown body", ""],
  ].map(([reference, marking, role], at) => ({ key: `p${at}`, reference, marking, role, measured: at === 3 ? "680k" : "", note: "", done: "" })),
  readings: { b_plus_first: "118" }, ticks: {},
};
/** Leaves sheets on the device, as typed in a window that is gone. */
export const leave = (page, ...jobs) =>
  page.addInitScript((jobs) => {
    for (const job of jobs) localStorage.setItem(`stand-in-typed:gone:${job.id}`, JSON.stringify(job));
  }, jobs.map((job, at) => ({ id: `demo${at || ""}`, revision: 0, by: "gone", changed: 1, archived: false, ...job })));
const demo = (page) => leave(page, { sheet: DEMO });

const bench = (page, site) => ({
  page,
  site,
  /** Opens the page at an address and waits until the core answers. */
  async open(hash = "") {
    if (hash.includes("demo")) await demo(page);
    await page.goto(site + hash);
    await expect(page.getByText("Getting ready.")).toHaveCount(0);
  },
  /** Chooses one of the words in sight. */
  choose: (word) => page.getByRole("radio", { name: word, exact: true }).check(),
  blank: (label) => page.getByLabel(label, { exact: true }),
  verdict: page.locator(".verdict"),
  question: page.locator("form.question"),
  answer: page.locator("[data-answer]"),
  bar: (place) => page.getByRole("navigation").getByRole("button", { name: place }),
});

export const test = base.extend({
  // eslint-disable-next-line no-empty-pattern -- Playwright wants the pattern
  site: [async ({}, use) => {
    const { server, address } = await serve(0, WWW);
    await use(address);
    server.closeAllConnections();
    server.close();
  }, { scope: "worker" }],
  // Kept for offline use only where that is what the test is about.
  serviceWorkers: ["block", { option: true }],
  stand: async ({ page, site }, use) => {
    const errors = [];
    page.on("pageerror", (error) => errors.push(error.message));
    page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
    await page.addInitScript({ path: AXE });
    const stand = { ...bench(page, site), errors };
    await use(stand);
    expect(stand.errors, "errors in the console").toEqual([]);
  },
});

/** Every screen there is, with an answer of each kind. */
export const SCREENS = {
  "first visit": "",
  "tube with stand-ins": "#tube?set=12SK7",
  "tube not found": "#tube?set=12SX7Q",
  "swap, both ways": "#tube?set=EL84&have=6AQ5",
  "swap, wires moved": "#tube?set=50B5&have=50C5&heaters=series",
  "swap, another base": "#tube?set=12SK7&have=12BA6&heaters=series",
  "swap, the string given": "#tube?set=12BA6&have=12AU6&heaters=series&line_v=123&others=50C5+12BE6+12AT6&chassis_side=1&dropper_ohm=220",
  "swap, every fact of the place": "#tube?set=EL84&have=6AQ5&heaters=parallel&spare_a=0.5&plate_v=250&cathode_ohm=150&load_kohm=5&ties=some&tie_pins=1+8&agc=no&tuned_khz=455",
  "swap of rectifiers": "#tube?set=5Y3GT&have=5U4G&load_ma=60&first_uf=20",
  "swap, a pin to look at": "#tube?set=6V6GT&have=6V6",
  "swap, a list unreadable": "#tube?set=12BA6&have=12AU6&heaters=series&others=50C5+12QQ9",
  "swap, cannot tell": "#tube?set=35Z5GT&have=35Y4",
  "swap, cannot tell, the set may": "#tube?set=12SL7GT&have=5963&heaters=series",
  "good for what": "#tube/serves?have=6AU6",
  "good for what, wanted": "#tube/serves?have=12AU6&wanted=12BA6%2C+6AU6%2C+12SK7+12QQ9&heaters=series",
  "good for what, not found": "#tube/serves?have=12QQ9",
  "a whole set": "#tube/lineup?note=12SA7%2C+2x+12SK7%2C+12SQ7+50L6GT+35Z5+99ZZ9",
  "a whole set, a hard tube": "#tube/lineup?note=1L6+1U4+1S5+3V4",
  "a whole set, nothing read": "#tube/lineup?note=tubes+missing",
  "rectifier, nothing given": "#supply/rectifier",
  rectifier: "#supply/rectifier?original=selenium&line_v=120&first_uf=40&load_ma=60&rated_v=150",
  "rectifier tube": "#supply/rectifier?original=tube&type=35W4&line_v=120&first_uf=40&load_ma=60&filter_ohm=1200&second_uf=40",
  "rectifier, unreadable": "#supply/rectifier?line_v=abc&first_uf=40&load_ma=60",
  "rectifier, read and two capacitors": "#supply/rectifier?wiring=doubler&original=selenium&line_v=120&first_uf=100&load_ma=100&measured_v=200&measured_ripple_v=4",
  "rectifier tube for another": "#supply/rectifier?wiring=two_plates&original=tube&type=5Y3GT&replacement=5U4G&line_v=120&secondary_v=300&secondary_ohm=150&first_uf=20&load_ma=70",
  "rectifier of a portable": "#supply/rectifier?wiring=portable&original=selenium&line_v=120&first_uf=40&load_ma=15&filament_tubes=1R5+1U4+1U5+3V4&filament_ohm=1500",
  "heater string with a cord and a lamp": "#supply/heaters?tubes=cord+180+ohm+25Z6+25L6+lamp+47+with+50+ohm+6A8+6K7+6Q7&line_v=120&designed_v=110",
  "heaters on a winding": "#supply/heaters?tubes=6X4+6BA6+6BE6&fed=winding&winding_v=6.3&winding_a=1",
  "heater string": "#supply/heaters?tubes=50C5+12BE6+12BA6+12AT6&line_v=123&dropper_ohm=220",
  capacitor: "#part/capacitor?marking=.02+mfd+400v&role=coupling",
  "capacitor at the line": "#part/capacitor?marking=.05+400v&role=line_to_chassis&line_v=120&line_hz=60",
  "capacitor of two sections": "#part/capacitor?marking=16-8+450v",
  resistor: "#part/resistor?marking=500k+20%25&measured=680k",
  "resistor, two readings": "#part/resistor?marking=50M",
  "capacitor, measured": "#part/capacitor?marking=.02+mfd+400v&role=coupling&measured=25n&grid_v=2.5&grid_ohm=470k",
  "colours, none yet": "#part/colours",
  "colours of a resistor": "#part/colours?colours=yellow+violet+orange+silver",
  "colours, body end dot": "#part/colours?code=body_end_dot&colours=green+black+yellow&measured=510k",
  "colours of a mica": "#part/colours?code=mica_dots&colours=white+red+green+brown+silver+brown",
  "colours of a paper tube": "#part/colours?code=paper_bands&marks=6&colours=red+violet+.+.+.+.",
  "colours that cannot be": "#part/colours?code=paper_bands&colours=gold+silver+gold+black+pink",
  "list, none yet": "#part/list",
  list: `#part/list?line_v=120&lines=${encodeURIComponent("C1 .05 400 line to chassis\nC2 .02 400v coupling\nC3 250 mmf mica 500V\nC4 .1 line\nsmudged, brown body\nR1 volume control 500k\nR2 470K 20% 1/2 W grid leak")}`,
  search: "#tube/search?text=6%3F5&base=octal",
  "search, nothing fits": "#tube/search?text=QQQ",
  "search, unreadable": "#tube/search?pins=lots",
  "tube, a worn character": "#tube?set=6%3F5GT",
  "my sets, none yet": "#sets",
  "my sets": "#sets?demo",
  "a sheet": "#sets/sheet?id=demo",
  "a sheet that is gone": "#sets/sheet?id=none",
  "bring-up": "#sets/bringup?id=demo",
  wanted: "#sets/wants?demo",
  "on the table": "#sets/table?text=12SG7%2C+6J5+VT-131+zz9&demo",
  stock: "#sets/stock",
  "shopping list": "#sets/shopping?id=demo",
  book: "#book",
  "row of the book": "#book/row?type=12SK7",
  "row of two units": "#book/row?type=6K8",
  "row, new": "#book/row?type=77ZZ7",
  "row, no type": "#book/row",
  about: "#about",
};

/** What axe finds wrong, one line each. Contrast is asked for at 7:1. */
export const faults = (page) =>
  page.evaluate(async () => {
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    // Sizes of targets are measured by a test of their own, which knows that what the bar covers can be scrolled away from it.
    const rules = { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: false } };
    const { violations } = await window.axe.run(document, { runOnly: { type: "tag", values: tags }, rules });
    return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target.join(" ")} ${node.failureSummary}`));
  });

export const read = (path) => readFileSync(new URL(path, import.meta.url));
