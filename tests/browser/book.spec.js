// The parts book: files of the user over the shipped one.
import { readFileSync } from "node:fs";
import { expect, test } from "./bench.js";

/** A file as the picker gives it. */
const file = (name, ...lines) => ({ name, mimeType: "text/csv", buffer: Buffer.from(`${lines.join("\n")}\n`) });
const HEAD = "type,unit,function,base,heater_v,heater_a,source";
// Made up: no such tubes exist.
const GOOD = "77ZZ7,1,pentode,octal,77,0.15,made up for a test";
const BAD = "78ZZ7,1,pentode,octal,hot,0.15,made up for a test";

const load = (page, table, one) => page.locator(`input[data-load="${table}"]`).setInputFiles(one);
const reports = (page) => page.locator("article.report");

test("faults are told line by line and the good rows stay, after a reload too", async ({ stand, page }) => {
  await stand.open("#book");
  await load(page, "tubes", file("mine.csv", HEAD, GOOD, BAD));
  const report = reports(page);
  await expect(report).toContainText("2 rows read");
  await expect(report).toContainText(/1 fault/);
  await expect(report.locator(".lines li")).toContainText(/line 3.*heater_v.*hot/);
  await expect(report).toContainText("The good rows are in the book.");
  await page.reload();
  await expect(report).toContainText(/1 fault/);
  await stand.bar("Tube").click();
  await stand.blank("The set wants").fill("77zz7");
  await expect(stand.verdict).toContainText("77 V, 0.15 A");
});

test("text of a file is text, never markup", async ({ stand, page }) => {
  const name = "<img src=x onerror=document.title='caught'>";
  await stand.open("#book");
  await load(page, "tubes", file("<b>mine.csv", `${HEAD},note`, `"${name}",1,pentode,octal,hot,0.15,"<script>document.title='caught'</script>",<i>note</i>`));
  await expect(reports(page)).toContainText("<b>mine.csv");
  await load(page, "names", file("names.csv", "name,type,relation,source", `"<u>alias</u>",12SK7,same,made up for a test`));
  await expect(reports(page)).toHaveCount(2);
  await stand.bar("Tube").click();
  await stand.blank("The set wants").fill(name);
  await expect(stand.answer).toContainText(/<img src=x onerror/i);
  await stand.blank("The set wants").fill("12SK7");
  await expect(stand.answer).toContainText("<u>alias</u>");
  expect(await page.locator("stand-in img, stand-in script, stand-in b > b, stand-in u").count()).toBe(0);
  expect(await page.title()).not.toBe("caught");
});

test("a file taken out leaves the book, and Undo brings it back", async ({ stand, page }) => {
  await stand.open("#book");
  await load(page, "tubes", file("mine.csv", HEAD, GOOD));
  await page.getByRole("button", { name: "Remove mine.csv" }).click();
  await expect(reports(page)).toHaveCount(0);
  const known = (type) => page.evaluate(async (type) => {
    const { ask } = await import("./bench.js");
    return ask({ ask: "tube", type }).tube !== undefined;
  }, type);
  expect(await known("77ZZ7")).toBe(false);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(reports(page)).toHaveCount(1);
  expect(await known("77ZZ7")).toBe(true);
});

test("the same file chosen again replaces what it said before", async ({ stand, page }) => {
  await stand.open("#book");
  await load(page, "tubes", file("mine.csv", HEAD, BAD));
  await expect(reports(page)).toContainText(/1 fault/);
  await load(page, "tubes", file("mine.csv", HEAD, BAD.replace("hot", "78")));
  await expect(reports(page)).toContainText("nothing wrong");
  await expect(reports(page)).toHaveCount(1);
});

test("the book is saved as CSV with the user's rows, and loads again", async ({ stand, page }) => {
  await stand.open("#book");
  await load(page, "tubes", file("mine.csv", HEAD, GOOD));
  await expect(reports(page)).toContainText("1 rows read");
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save tubes.csv" }).click()]);
  expect(download.suggestedFilename()).toBe("tubes.csv");
  const csv = readFileSync(await download.path(), "utf8");
  expect(csv.split("\n").some((line) => line.startsWith("77ZZ7,"))).toBe(true);
  await load(page, "tubes", { name: "tubes.csv", mimeType: "text/csv", buffer: Buffer.from(csv) });
  await expect(reports(page).last()).toContainText(/\d+ rows read: 0 new, 0 changed/);
});

test("a calculation that stops is started anew, with the user's files in it", async ({ stand, page }) => {
  await stand.open("#book");
  await load(page, "tubes", file("mine.csv", HEAD, GOOD));
  await expect(reports(page)).toContainText("nothing wrong");
  await stand.bar("Tube").click();
  // A trap as the engine throws it, in the instance the page uses.
  await page.evaluate(async () => {
    const { Bench } = await import("./stand_in.js");
    Bench.prototype.ask = () => { throw new WebAssembly.RuntimeError("unreachable"); };
  });
  await stand.blank("The set wants").fill("77ZZ7");
  await expect(stand.verdict).toContainText("77 V, 0.15 A");
  await expect(page.getByText("It was started anew")).toBeVisible();
  expect(stand.errors.join()).toContain("unreachable");
  stand.errors.length = 0;
});

test("a core that cannot be fetched says so plainly", async ({ stand, page }) => {
  await page.route("**/stand_in_bg.wasm", (route) => route.fulfill({ status: 404, body: "" }));
  await page.goto(stand.site);
  await expect(stand.verdict).toContainText("The calculating part did not load.");
  await expect(stand.verdict).toContainText("Open it once with a network");
  stand.errors.length = 0;
});
