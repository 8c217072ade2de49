// Nothing written down of a set is lost: not by a reload, a page that is killed, another window, a full device, or a new version of the page.
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { serve } from "../../scripts/serve.mjs";
import { WWW, expect, test } from "./bench.js";

// What is kept does not depend on the screen: once is enough.
test.skip(({ isMobile }) => !isMobile, "runs on the phone only");

const name = (page) => page.getByLabel("The set", { exact: true });
/** Begins a sheet and gives its address. */
const begin = async (page, site, called) => {
  await page.goto(`${site}#sets`);
  await page.getByRole("button", { name: "Empty sheet" }).click();
  await name(page).fill(called);
  await expect(page.getByText("Kept on this device.")).toBeVisible();
  return page.url();
};
/** What can be done with the sheet of a row. */
const more = async (page) => {
  const fold = page.locator(".more").last();
  if (!(await fold.evaluate((one) => one.open))) await fold.locator("summary").click();
};
/** All sheets as they are in the database. */
const kept = (page) => page.evaluate(async () => (await (await import("./keep_jobs.js")).all()).map(({ revision, archived, sheet }) => ({ revision, archived, ...sheet })));

test("what was typed last is there after a reload at once, with every blank, line and fold of it", async ({ stand, page }) => {
  await begin(page, stand.site, "kitchen set");
  await page.getByRole("button", { name: "Add a tube" }).click();
  await page.getByLabel("type", { exact: true }).fill("12SK7");
  await page.getByRole("radio", { name: "weak" }).check();
  await page.getByRole("button", { name: "Add a part" }).click();
  await page.getByLabel("marked", { exact: true }).fill(".02 mfd 400v");
  await page.locator("summary", { hasText: "Add several lines" }).click();
  await page.getByLabel("Tubes and parts, one a line").fill("V3 12SQ7");
  await name(page).fill("kitchen set, the green one");
  await page.reload();
  await expect(name(page)).toHaveValue("kitchen set, the green one");
  await expect(page.locator(".job-line")).toHaveCount(2);
  await expect(page.locator(".job-line").first()).toContainText("12SK7 weak");
  await page.locator("summary", { hasText: "Add several lines" }).click();
  await expect(page.getByRole("textbox", { name: "Tubes and parts, one a line" })).toHaveValue("V3 12SQ7");
  // What is written down beside the database is gone once it is in it.
  await expect.poll(() => page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("stand-in-typed")).length)).toBe(0);
});

test("a page killed while one types, a hundred times, loses no letter that was typed", async ({ stand, page, context }) => {
  test.setTimeout(400_000);
  const address = await begin(page, stand.site, "0");
  await page.close();
  // The sheet is there before the core, and without it.
  await context.route("**/*.wasm", (route) => route.abort());
  // Counted before the page itself looks.
  await context.addInitScript(() => (window.left = Object.keys(localStorage).filter((key) => key.startsWith("stand-in-typed")).length));
  let typed = 0;
  let unsaved = 0;
  await context.exposeFunction("say", (number) => (typed = number));
  for (let round = 0; round < 100; round += 1) {
    const page = await context.newPage();
    // One time in five the whole page; else only the part of it that holds the sheets and keeps them, which loads faster.
    const whole = round % 5 === 0;
    await page.goto(whole ? address : `${stand.site}page.css`);
    unsaved += await page.evaluate(() => window.left);
    if (whole) await name(page).waitFor();
    else {
      await page.evaluate(async (id) => {
        const { Jobs, begin } = await import("./jobs.js");
        let state = { sets: begin(), screen: "job", fields: { job: { id } }, core: "failed", notice: null };
        const jobs = new Jobs({ state: () => state, set: (change) => (state = { ...state, ...change }), go() {}, answer() {}, reach() {}, text: async () => "", recover: async () => {} });
        await jobs.start(new AbortController().signal, true);
        window.read = () => state.sets.jobs.find((job) => job.id === id).sheet.name;
        window.write = (text) => jobs.fill({ name: text });
      }, new URLSearchParams(address.split("?")[1]).get("id"));
    }
    const now = async () => Number(whole ? await name(page).inputValue() : await page.evaluate(() => window.read()));
    // What another window left is found a moment after the sheet is shown.
    await expect.poll(now, { message: `round ${round}` }).toBeGreaterThanOrEqual(typed);
    const from = await now();
    const before = typed;
    page.evaluate(async ({ from, whole }) => {
      const input = whole && document.querySelector("stand-in").shadowRoot.querySelector("#name");
      for (let number = from + 1; ; number += 1) {
        if (whole) {
          input.value = String(number);
          input.dispatchEvent(new Event("input", { bubbles: true }));
        } else window.write(String(number));
        window.say(number);
        await new Promise((go) => setTimeout(go, 2));
      }
    }, { from, whole }).catch(() => {});
    await expect.poll(() => typed).toBeGreaterThan(before);
    await new Promise((go) => setTimeout(go, (round * 37) % 260));
    if (round % 2) await page.close();
    else {
      const session = await context.newCDPSession(page);
      const crashed = page.waitForEvent("crash");
      session.send("Page.crash").catch(() => {});
      await crashed;
      await page.close();
    }
  }
  console.log(`killed before the database had the last letter: ${unsaved} of 100`);
  expect(unsaved).toBeGreaterThan(30);
  const last = await context.newPage();
  await last.goto(address);
  await expect.poll(async () => Number(await name(last).inputValue())).toBeGreaterThanOrEqual(typed);
  // One sheet, no copies.
  expect(await kept(last)).toHaveLength(1);
});

test("two windows on one sheet: the one behind is told, and takes the other's or keeps its own as a copy", async ({ stand, page, context }) => {
  const address = await begin(page, stand.site, "kitchen set");
  const other = await context.newPage();
  await other.goto(address);
  await expect(name(other)).toHaveValue("kitchen set");
  await name(other).fill("from the other");
  await expect(other.getByText("Kept on this device.")).toBeVisible();
  await expect(page.getByRole("alert")).toContainText("This sheet was changed in another window.");
  await expect(name(page)).toHaveValue("kitchen set");
  await page.getByRole("button", { name: "Take the other one" }).click();
  await expect(name(page)).toHaveValue("from the other");
  await expect(page.getByRole("alert")).toHaveCount(0);
  // Typed in both: nothing is written over.
  await name(other).fill("other again");
  await name(page).fill("mine");
  await expect.poll(async () => (await page.getByRole("alert").count()) + (await other.getByRole("alert").count())).toBeGreaterThan(0);
  const [behind, text] = (await page.getByRole("alert").count()) ? [page, "mine"] : [other, "other again"];
  await behind.getByRole("button", { name: "Keep mine as a copy" }).click();
  await expect(name(behind)).toHaveValue(`${text} (from this window)`);
  await expect.poll(async () => (await kept(page)).map((one) => one.name).sort()).toEqual(
    [text === "mine" ? "other again" : "mine", `${text} (from this window)`].sort());
});

test("a window that is behind and is closed leaves what was typed in it as a sheet of its own", async ({ stand, page, context }) => {
  const address = await begin(page, stand.site, "kitchen set");
  const other = await context.newPage();
  await other.goto(address);
  await name(other).fill("theirs");
  await expect(page.getByRole("alert")).toBeVisible();
  await name(page).fill("mine");
  await page.close();
  await other.goto("about:blank");
  await other.goto(`${stand.site}#sets`);
  await expect(other.locator(".job-row")).toHaveText([/theirs|mine \(typed before/, /theirs|mine \(typed before/]);
});

test("a sheet deleted in another window is told of, and comes back as a copy", async ({ stand, page, context }) => {
  await begin(page, stand.site, "kitchen set");
  const other = await context.newPage();
  await other.goto(`${stand.site}#sets`);
  await other.locator(".more summary").click();
  await other.getByRole("button", { name: "Put in the archive" }).click();
  await other.locator("summary", { hasText: "Archive: 1 sheet" }).click();
  await other.locator(".more summary").last().click();
  await other.getByRole("button", { name: "Delete" }).click();
  await expect(page.getByRole("alert")).toContainText("This sheet was deleted in another window.");
  await page.getByRole("button", { name: "Keep mine as a copy" }).click();
  await expect(name(page)).toHaveValue("kitchen set (from this window)");
  await expect.poll(async () => (await kept(page)).map((one) => one.name)).toEqual(["kitchen set (from this window)"]);
});

test("archive, delete and duplicate, each with the way back", async ({ stand, page }) => {
  await begin(page, stand.site, "kitchen set");
  await stand.bar("Sets").click();
  await page.locator(".switch").getByRole("button", { name: "My sets" }).click();
  const rows = page.locator(".job-row");
  await more(page);
  await page.getByRole("button", { name: "Duplicate" }).click();
  await expect(name(page)).toHaveValue("kitchen set (copy)");
  await page.getByRole("button", { name: "Undo" }).last().click();
  await expect(rows).toHaveCount(1);
  await more(page);
  await page.getByRole("button", { name: "Put in the archive" }).click();
  await expect(rows.locator("visible=true")).toHaveCount(0);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(rows).toHaveCount(1);
  await more(page);
  await page.getByRole("button", { name: "Put in the archive" }).click();
  await page.locator("summary", { hasText: "Archive: 1 sheet" }).click();
  await more(page);
  await page.getByRole("button", { name: "Delete" }).click();
  await expect(rows).toHaveCount(0);
  await expect.poll(() => kept(page)).toEqual([]);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(async () => (await kept(page)).map(({ name, archived }) => [name, archived])).toEqual([["kitchen set", true]]);
});

test("steps are undone and done again, typing in one blank as one step", async ({ stand, page }) => {
  await begin(page, stand.site, "kitchen set");
  const steps = page.locator(".steps");
  await page.getByRole("button", { name: "Add a tube" }).click();
  await page.getByLabel("type", { exact: true }).pressSequentially("12SK7");
  await page.getByRole("button", { name: "Add a tube" }).click();
  await page.getByLabel("type", { exact: true }).nth(1).pressSequentially("50L6GT");
  const types = () => page.locator(".job-line .what b").allInnerTexts();
  await page.getByRole("button", { name: "Up: 50L6GT" }).click();
  expect(await types()).toEqual(["50L6GT", "12SK7"]);
  // The focus goes along; at the top the way down is left.
  await expect(page.getByRole("button", { name: "Down: 50L6GT" })).toBeFocused();
  await page.getByRole("button", { name: "Remove: 12SK7" }).click();
  expect(await types()).toEqual(["50L6GT"]);
  await page.locator(".notice").getByRole("button", { name: "Undo" }).click();
  expect(await types()).toEqual(["50L6GT", "12SK7"]);
  await steps.getByRole("button", { name: "Undo" }).click();
  expect(await types()).toEqual(["12SK7", "50L6GT"]);
  await steps.getByRole("button", { name: "Undo" }).click();
  expect(await types()).toEqual(["12SK7", "Type what it is."]);
  await steps.getByRole("button", { name: "Redo" }).click();
  expect(await types()).toEqual(["12SK7", "50L6GT"]);
  await expect.poll(async () => (await kept(page))[0].tubes.map(({ type }) => type)).toEqual(["12SK7", "50L6GT"]);
});

for (const [why, error, says] of [["full", "QuotaExceededError", "This device has no room left"], ["refused", "SecurityError", "The browser keeps nothing here"]]) {
  test(`a device that is ${why} is told of once, the sheet stays and can be saved as a file`, async ({ stand, page }) => {
    await page.addInitScript((error) => {
      window.refuse = true;
      const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function (...all) {
        if (window.refuse) throw new DOMException("no", error);
        return put.apply(this, all);
      };
      const set = Storage.prototype.setItem;
      Storage.prototype.setItem = function (...all) {
        if (window.refuse) throw new DOMException("no", error);
        return set.apply(this, all);
      };
    }, error);
    await stand.open("#sets");
    await page.getByRole("button", { name: "Empty sheet" }).click();
    await expect(page.locator(".settled")).toContainText(says);
    await name(page).fill("kitchen set");
    await page.getByRole("button", { name: "Add a tube" }).click();
    await page.getByLabel("type", { exact: true }).fill("12SK7");
    await expect(page.locator(".notice")).toHaveCount(0);
    await expect(page.locator(".settled")).toContainText(says);
    // Elsewhere and back: still there.
    await stand.bar("Tube").click();
    await stand.bar("Sets").click();
    await expect(name(page)).toHaveValue("kitchen set");
    const [file] = await Promise.all([page.waitForEvent("download"), page.locator(".settled").getByRole("button", { name: "Save as a file" }).click()]);
    const text = readFileSync(await file.path(), "utf8");
    expect(text).toContain("kitchen set");
    expect(text).toContain("12SK7");
    // Room again: the next change is kept, and the warning goes.
    await page.evaluate(() => (window.refuse = false));
    await name(page).fill("kitchen set, kept");
    await expect(page.locator(".settled")).toHaveCount(0);
    await expect.poll(async () => (await kept(page)).map((one) => one.name)).toEqual(["kitchen set, kept"]);
  });
}

test.describe("a new version", () => {
  test.use({ serviceWorkers: "allow" });
  test("taken while a sheet is open loses nothing", async ({ page }) => {
    const directory = mkdtempSync(join(tmpdir(), "stand-in-www-"));
    cpSync(WWW, directory, { recursive: true });
    const { server, address } = await serve(0, directory);
    try {
      await begin(page, address, "kitchen set");
      await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
      const list = join(directory, "sw-files.js");
      writeFileSync(list, readFileSync(list, "utf8").replace(/"version": "\w+"/, '"version": "newer"'));
      await page.reload();
      await expect(page.getByText("A newer version is ready.")).toBeVisible();
      await name(page).fill("kitchen set, typed just before");
      await page.getByRole("button", { name: "Use it now" }).click();
      await page.waitForFunction(async () => (await caches.keys()).join() === "stand-in-newer");
      await expect(name(page)).toHaveValue("kitchen set, typed just before");
      await expect.poll(async () => (await kept(page)).map((one) => one.name)).toEqual(["kitchen set, typed just before"]);
    } finally {
      server.closeAllConnections();
      server.close();
      rmSync(directory, { recursive: true });
    }
  });
});
