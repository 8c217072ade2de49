// The parts book: the user's rows over the shipped ones, from files and from the form. No type with ZZ in its name exists.
import { readFileSync } from "node:fs";
import { expect, test } from "./bench.js";

/** A file as the picker gives it. */
const file = (name, ...lines) => ({ name, mimeType: "text/csv", buffer: Buffer.from(`${lines.join("\n")}\n`) });
const HEAD = "type,unit,function,base,heater_v,heater_a,source";
const GOOD = "77ZZ7,1,pentode,octal,77,0.15,made up for a test";
const BAD = "78ZZ7,1,pentode,octal,hot,0.15,made up for a test";

const choose = (page, ...files) => page.locator("input[type=file]").setInputFiles(files);
const report = (page) => page.locator("article.report");
const take = (page) => page.getByRole("button", { name: "Take it in" }).click();
const mine = (page) => page.locator(".own > li");
/** Takes files in, one after the other. */
const load = async (page, ...files) => {
  for (const one of files) {
    await choose(page, one);
    await take(page);
    await expect(page.locator(".notice")).toContainText(`${one.name} is in your book`);
  }
};
/** What the core of the page answers. */
const ask = (page, question) => page.evaluate((question) => document.querySelector("stand-in").ask(question), question);
const heater = async (page, type) => (await ask(page, { ask: "tube", type })).tube?.heater;
/** What is kept on the device. */
const kept = (page) => page.evaluate(async () => (await (await import("./keep.js")).book()).own);

test("a file is looked at first: new, changed cell by cell, faults; nothing is done until it is taken in", async ({ stand, page }) => {
  await stand.open("#book");
  await choose(page, file("mine.csv", HEAD, GOOD, BAD, "12SK7,1,pentode,octal,12.7,0.15,memory"));
  await expect(report(page)).toContainText("3 rows read: 2 new, 1 changed, 0 as they were.");
  await expect(report(page)).toContainText("77ZZ7, 78ZZ7");
  await expect(report(page).getByRole("row", { name: /12SK7, heater, volts 12\.6 12\.7/ })).toBeVisible();
  await expect(report(page).locator("tbody tr")).toHaveCount(1);
  await expect(report(page).locator(".lines li")).toHaveText(/Line 3, heater, volts:\s+found “hot”\. Accepted: a number of V from 0\.1 to 150, or nothing when not known\./);
  expect(await heater(page, "77ZZ7")).toBeUndefined();
  await page.getByRole("button", { name: "Leave it" }).click();
  await expect(report(page)).toHaveCount(0);
  expect(await heater(page, "12SK7")).toBe("12.6 V, 0.15 A");
  await load(page, file("mine.csv", HEAD, GOOD, BAD));
  await expect(page.getByText("Yours: 2 types.")).toBeVisible();
  await page.reload();
  await expect(mine(page)).toHaveCount(2);
  await mine(page).filter({ hasText: "77ZZ7" }).getByRole("button", { name: "Open" }).click();
  await expect(stand.verdict).toContainText("77 V, 0.15 A");
});

test("files come by the picker, several at once, by dropping and by pasting; other names are told by their columns", async ({ stand, page }) => {
  await stand.open("#tube?set=12SK7");
  // Dropped anywhere on the page.
  await page.evaluate((text) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([text], "dropped.csv"));
    document.querySelector("stand-in").dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
  }, `${HEAD}\n${GOOD}\n`);
  await expect(report(page)).toContainText("dropped.csv: what would change");
  await take(page);
  await expect.poll(() => heater(page, "77ZZ7")).toBe("77 V, 0.15 A");
  await choose(page, file("a.csv", HEAD, GOOD.replaceAll("77", "76")), file("b.csv", "name,type,relation,source", "VT-ZZ1,76ZZ7,same,made up for a test"));
  await expect(report(page)).toContainText("a.csv");
  await take(page);
  await expect(report(page)).toContainText("b.csv");
  await expect(report(page).getByRole("radio", { name: "other names" })).toBeChecked();
  await take(page);
  await expect(page.getByText("Yours: 2 types and 1 other name.")).toBeVisible();
  // Tabs, as a spreadsheet puts them on the clipboard.
  await page.getByLabel("Or paste rows here").evaluate((area, text) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData("text", text);
    area.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
  }, "type\tunit\theater_v\n77ZZ7\t1\t78\n");
  await expect(report(page)).toContainText("Pasted rows: what would change");
  await take(page);
  await expect.poll(() => heater(page, "77ZZ7")).toBe("78 V, 0.15 A");
  // Typed into the blank, which is a way for the keyboard too.
  await page.getByLabel("Or paste rows here").fill("type,unit,heater_v\n77ZZ7,1,79");
  await page.getByRole("button", { name: "See what they change" }).click();
  await expect(report(page).getByRole("row", { name: /77ZZ7, heater, volts 78 79/ })).toBeVisible();
});

test("what is no table, or in the letters of an old spreadsheet, is said or read", async ({ stand, page }) => {
  await stand.open("#book");
  await choose(page, { name: "book.xlsx", mimeType: "application/zip", buffer: Buffer.from("PK\x03\x04\0\0\0\0rows", "latin1") });
  await expect(report(page)).toContainText("The file: found “a binary file”");
  await expect(page.getByRole("button", { name: "Take it in" })).toHaveCount(0);
  await page.getByRole("button", { name: "Close", exact: true }).click();
  await expect(report(page)).toHaveCount(0);
  // Windows-1252: 0xB5 is the micro sign.
  await choose(page, { name: "old.csv", mimeType: "text/csv", buffer: Buffer.from(`${HEAD}\n${GOOD.replace("made up", "5 \u00b5F")}\n`, "latin1") });
  await take(page);
  await expect.poll(async () => (await ask(page, { ask: "tube", type: "77ZZ7" })).tube?.source).toBe("5 µF for a test");
});

test("text of a file is text, never markup", async ({ stand, page }) => {
  const name = "<img src=x onerror=document.title='caught'>";
  await stand.open("#book");
  await load(page, file("<b>mine.csv", `${HEAD},note`, `"${name}",1,pentode,octal,hot,0.15,"<script>document.title='caught'</script>",<i>note</i>`));
  await expect(mine(page)).toContainText(/<img src=x onerror/i);
  await load(page, file("names.csv", "name,type,relation,source", `"<u>alias</u>",12SK7,same,made up for a test`));
  await expect(mine(page)).toHaveCount(2);
  await stand.bar("Tube").click();
  await stand.blank("The set wants").fill(name);
  await expect(stand.answer).toContainText(/<img src=x onerror/i);
  await stand.blank("The set wants").fill("12SK7");
  await expect(stand.answer).toContainText("<u>alias</u>");
  expect(await page.locator("stand-in img, stand-in script, stand-in b > b, stand-in u").count()).toBe(0);
  expect(await page.title()).not.toBe("caught");
});

test("rows taken out leave the book, and Undo brings them back; so it does after a file", async ({ stand, page }) => {
  await stand.open("#book");
  await load(page, file("mine.csv", HEAD, GOOD, "12SK7,1,pentode,octal,12.7,0.15,memory"));
  await page.getByRole("button", { name: "Remove 77ZZ7" }).click();
  await expect(mine(page)).toHaveCount(1);
  expect(await heater(page, "77ZZ7")).toBeUndefined();
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(mine(page)).toHaveCount(2);
  expect(await heater(page, "77ZZ7")).toBe("77 V, 0.15 A");
  // A shipped type is the shipped one again.
  await page.getByRole("button", { name: "Remove 12SK7" }).click();
  await expect(mine(page)).toHaveCount(1);
  expect(await heater(page, "12SK7")).toBe("12.6 V, 0.15 A");
  // Both at once, before the first is done.
  await load(page, file("more.csv", HEAD, GOOD.replaceAll("77", "76")));
  await page.evaluate(() => document.querySelector("stand-in").shadowRoot.querySelectorAll('[aria-label^="Remove"]').forEach((one) => one.click()));
  await expect(mine(page)).toHaveCount(0);
  await load(page, file("mine.csv", HEAD, GOOD));
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(mine(page)).toHaveCount(0);
  await expect.poll(async () => (await kept(page)).tubes).not.toContain("77ZZ7");
});

test("a row is edited in the page: faults at the field, the shipped value beside it, and given back", async ({ stand, page }) => {
  await stand.open("#tube?set=12SK7");
  await stand.answer.getByRole("button", { name: /Its row in the book/ }).click();
  await page.locator("summary", { hasText: "Heater" }).click();
  const volts = page.getByLabel("heater, volts", { exact: true });
  await expect(volts).toHaveAttribute("placeholder", "0.1 to 150");
  await volts.fill("1000");
  await expect(page.locator(".blank.wrong .fault")).toHaveText("“1000”. Accepted: a number of V from 0.1 to 150, or nothing when not known.");
  await expect(page.locator(".settle")).toContainText("1 cell changed. 1 cannot be read.");
  // Not saved while it cannot be read: the way leads to the field.
  await page.getByRole("button", { name: "Save it in my book" }).click();
  await expect(volts).toBeFocused();
  expect(await heater(page, "12SK7")).toBe("12.6 V, 0.15 A");
  await volts.fill("12.7");
  await expect(page.locator(".help").filter({ hasText: "shipped: 12.6 V" })).toBeVisible();
  // A reload in the middle loses nothing.
  await page.reload();
  await expect(volts).toHaveValue("12.7");
  await volts.press("Enter");
  await expect(page.locator(".notice")).toContainText("12SK7 is saved in your book.");
  expect(await heater(page, "12SK7")).toBe("12.7 V, 0.15 A");
  await expect.poll(async () => (await kept(page)).tubes).toContain("12SK7,1,pentode,octal,8N,");
  await page.goto(`${stand.site}#book/row?type=12SK7`);
  await expect(page.getByRole("row", { name: "heater, volts 12.7 V 12.6 V" })).toBeVisible();
  await page.locator("summary", { hasText: "Heater" }).click();
  await page.getByRole("button", { name: "heater, volts: as shipped" }).click();
  await expect(volts).toHaveValue("12.6");
  await page.getByRole("button", { name: "Save it in my book" }).click();
  await expect(page.locator(".notice")).toContainText("saved");
  // Nothing of it is the user's any more.
  await page.goto(`${stand.site}#book`);
  await expect(page.getByText("None so far.")).toBeVisible();
});

test("a type that is not found is added by the form and then answered, with two units", async ({ stand, page }) => {
  await stand.open("#tube?set=12SK7&have=77zz7");
  await stand.answer.getByRole("button", { name: "Add it to my book" }).click();
  await expect(page.getByRole("heading", { name: "Add 77ZZ7 to my book" })).toBeVisible();
  await expect(page.locator(".fault")).toHaveCount(0);
  await page.getByLabel("base", { exact: true }).selectOption("octal");
  // The core says what a row cannot do without.
  await expect(page.locator(".cell .fault")).toContainText("what the unit does");
  await page.getByLabel("function", { exact: true }).selectOption("triode");
  await expect(page.locator(".cell .fault")).toHaveCount(0);
  await page.getByRole("button", { name: "Add another unit of this tube" }).click();
  await page.getByLabel("function", { exact: true }).nth(1).selectOption("pentode");
  await page.locator("summary", { hasText: "Heater" }).first().click();
  await page.getByLabel("heater, volts", { exact: true }).fill("6.3");
  await page.getByRole("button", { name: "Save it in my book" }).click();
  // Back where it was wanted, with an answer.
  await expect(stand.blank("I have")).toHaveValue("77zz7");
  await expect(stand.verdict).not.toContainText("Not in the book.");
  const { tube } = await ask(page, { ask: "tube", type: "77ZZ7" });
  expect(tube.units.map((unit) => unit.function)).toEqual(["triode", "pentode"]);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(stand.verdict).toContainText("Not in the book.");
});

test("the form is filled and saved with the keyboard alone", async ({ stand, page }) => {
  await stand.open("#book");
  await page.getByLabel("A tube to correct or add").focus();
  await page.keyboard.type("12SK7");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "12SK7 in my book" })).toBeVisible();
  await page.locator("summary", { hasText: "Limits" }).focus();
  await page.keyboard.press("Enter");
  // The first cell of the group is the next stop.
  await page.keyboard.press("Tab");
  await expect(page.getByLabel("most plate volts", { exact: true })).toBeFocused();
  await page.keyboard.press("ControlOrMeta+a");
  await page.keyboard.type("250");
  await page.keyboard.press("Enter");
  await expect(page.locator(".notice")).toContainText("12SK7 is saved in your book.");
  await expect(mine(page)).toContainText("12SK7");
  await page.getByRole("button", { name: "Edit 12SK7" }).press("Enter");
  await page.locator("summary", { hasText: "Limits" }).press("Enter");
  const limit = page.getByLabel("most plate volts", { exact: true });
  await expect(limit).toHaveValue("250");
  await limit.press("Escape");
  await expect(limit).toHaveValue("");
  await page.getByRole("button", { name: "Discard" }).press("Enter");
  await expect(limit).toHaveValue("250");
});

test("the book is saved as CSV, whole and the user's rows alone, and loads again", async ({ stand, page }) => {
  await stand.open("#book");
  await load(page, file("mine.csv", HEAD, GOOD, BAD));
  const download = async (name) => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name, exact: true }).click()]);
    return { name: download.suggestedFilename(), csv: readFileSync(await download.path(), "utf8") };
  };
  const own = await download("My tubes");
  expect(own.name).toBe("own_tubes.csv");
  // The cell that cannot be read comes back as it was.
  expect(own.csv.split("\n").slice(1, -1).map((line) => line.split(",")[0])).toEqual(["77ZZ7", "78ZZ7"]);
  expect(own.csv).toContain("hot");
  const all = await download("All tubes");
  expect(all.name).toBe("tubes.csv");
  expect(all.csv.split("\n").some((line) => line.startsWith("77ZZ7,"))).toBe(true);
  expect((await download("All other names")).csv).toContain("VT-131,");
  await choose(page, { name: "tubes.csv", mimeType: "text/csv", buffer: Buffer.from(all.csv) });
  await expect(report(page)).toContainText(/\d+ rows read: 0 new, 0 changed/);
});

test("files that an earlier version kept become rows; nothing of them is lost", async ({ stand, page }) => {
  // A browser asks for the icon of a bare file.
  await page.route("**/favicon.ico", (route) => route.fulfill({ status: 204 }));
  await page.goto(`${stand.site}page.css`);
  await page.evaluate(([tubes, later, names]) => new Promise((done, fail) => {
    const request = indexedDB.open("stand-in", 1);
    request.onupgradeneeded = () => request.result.createObjectStore("files", { keyPath: "place" });
    request.onerror = fail;
    request.onsuccess = () => {
      const transaction = request.result.transaction("files", "readwrite");
      // The order in which they were laid over the book counts.
      [["tubes", tubes], ["tubes", later], ["names", names]].forEach(([table, csv], place) => transaction.objectStore("files").put({ place, name: "f.csv", table, csv }));
      transaction.oncomplete = () => (request.result.close(), done());
    };
  }), [`${HEAD}\n${GOOD}\n${BAD}\n12SK7,1,pentode,octal,12.7,0.15,mine\n`, "type,unit,heater_v\n77ZZ7,1,76\n", "name,type,relation,source\nVT-ZZ1,77ZZ7,same,mine\n"]);
  for (const visit of [1, 2]) {
    await stand.open("#book");
    await expect(page.getByText("Yours: 3 types and 1 other name."), `visit ${visit}`).toBeVisible();
    expect(await heater(page, "VT-ZZ1")).toBe("76 V, 0.15 A");
    expect(await heater(page, "12SK7")).toBe("12.7 V, 0.15 A");
    expect((await kept(page)).tubes).toContain("hot");
    await page.goto("about:blank");
  }
});

test("a row of the user outlasts an update of the shipped one, and both are shown", async ({ stand, page }) => {
  await stand.open("#book");
  // As it was kept when the shipped book said 12.5 V: a whole row.
  await page.evaluate(async () => {
    const [{ core }, keep] = await Promise.all([import("./bench.js"), import("./keep.js")]);
    const bench = core();
    await bench.start([]);
    const [head, ...rows] = bench.save("tubes").split("\n");
    const row = rows.find((line) => line.startsWith("12SK7,")).replace(",12.6,", ",12.5,");
    await keep.keepBook({ tubes: `${head}\n${row}\n`, names: "" });
  });
  await page.reload();
  await mine(page).getByText("differs from the shipped row in 1 cell").click();
  await expect(mine(page).getByRole("row", { name: "heater, volts 12.5 V 12.6 V" })).toBeVisible();
  expect(await heater(page, "12SK7")).toBe("12.5 V, 0.15 A");
});

test("another window of the page has the book that was kept last", async ({ stand, page, context }) => {
  await stand.open("#book");
  const other = await context.newPage();
  await other.goto(`${stand.site}#tube?set=77ZZ7`);
  await expect(other.locator(".verdict")).toContainText("Not found.");
  await load(page, file("mine.csv", HEAD, GOOD));
  await expect(other.locator(".verdict")).toContainText("77 V, 0.15 A");
});

test("a calculation that stops is started anew, with the user's rows in it", async ({ stand, page }) => {
  await stand.open("#book");
  await load(page, file("mine.csv", HEAD, GOOD));
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
