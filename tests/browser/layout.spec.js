// Every screen: fits its width, bears twice the text, and satisfies axe with contrast at 7:1.
import { SCREENS, expect, faults, test } from "./bench.js";

const unfold = (page) =>
  page.evaluate(() => document.querySelector("stand-in").shadowRoot.querySelectorAll("details").forEach((one) => (one.open = true)));

/** Whatever sticks out at the right, and by how much. */
const sticksOut = (page) =>
  page.evaluate(() => {
    const wide = document.documentElement.clientWidth;
    const out = [...document.querySelector("stand-in").shadowRoot.querySelectorAll("[role=main] *, header *, nav *")]
      .filter((one) => !one.closest(".heard, svg"))
      .map((one) => [one, one.getBoundingClientRect().right - wide])
      .filter(([, by]) => by > 0.5)
      .map(([one, by]) => `${one.tagName}.${one.className} by ${by.toFixed(0)} px: ${one.textContent.trim().slice(0, 40)}`);
    return document.documentElement.scrollWidth > wide ? [`the page scrolls sideways`, ...out] : out;
  });

for (const [name, hash] of Object.entries(SCREENS)) {
  test(`${name}: fits, at twice the text too, and satisfies axe`, async ({ stand, page }) => {
    await stand.open(hash);
    await unfold(page);
    expect(await sticksOut(page), "at normal text").toEqual([]);
    expect(await faults(page), "axe").toEqual([]);
    await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
    expect(await sticksOut(page), "at 200 % text").toEqual([]);
  });
}

/** Fits at both sizes of text, with everything unfolded, and satisfies axe. */
const fits = async (page, what) => {
  await unfold(page);
  expect(await sticksOut(page), `${what}, at normal text`).toEqual([]);
  expect(await faults(page), `${what}, axe`).toEqual([]);
  await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
  expect(await sticksOut(page), `${what}, at 200 % text`).toEqual([]);
  await page.evaluate(() => (document.documentElement.style.fontSize = ""));
};

test("a file on its way into the book, the user's rows, and a row with faults fit and satisfy axe", async ({ stand, page }) => {
  await stand.open("#book");
  const rows = ["12SK7,1,pentode,octal,12.7,memory", "77ZZ7,1,pentode,octal,hot,made up for a test", ...Array.from({ length: 12 }, (_, at) => `7${at}ZZ7,1,what,octal,6.3,made up for a test`)];
  const csv = (rows) => Buffer.from(`type,unit,function,base,heater_v,source\n${rows.join("\n")}\n`);
  const choose = (buffer) => page.locator("input[type=file]").setInputFiles({ name: "a-file-with-a-rather-long-name-as-people-give-them.csv", mimeType: "text/csv", buffer });
  await choose(csv(Array.from({ length: 50_000 }, (_, at) => `ZZ${at},1,pentode,octal,6.3,made up for a test`)));
  await expect(page.getByRole("progressbar")).toBeVisible();
  expect(await sticksOut(page), "progress").toEqual([]);
  await stand.bar("Tube").click();
  await expect(page.getByRole("progressbar")).toBeVisible();
  expect(await sticksOut(page), "progress above the bar").toEqual([]);
  await page.getByRole("button", { name: "Stop" }).click();
  await page.goto(`${stand.site}#book`);
  await choose(csv(rows));
  await expect(page.getByRole("button", { name: "Take it in" })).toBeVisible();
  await fits(page, "preview");
  await page.getByRole("button", { name: "Take it in" }).click();
  await expect(page.locator(".notice")).toContainText("is in your book");
  await fits(page, "the user's rows");
  await page.getByRole("button", { name: "Edit 12SK7" }).click();
  await unfold(page);
  await page.getByLabel("heater, volts", { exact: true }).fill("lots");
  await page.getByRole("button", { name: "Add another unit of this tube" }).click();
  await expect(page.locator(".fault").first()).toBeVisible();
  await fits(page, "a row with faults");
});

test("the menu and a notice satisfy axe", async ({ stand, page }) => {
  await stand.open();
  await page.evaluate(() => document.querySelector("stand-in").keepsWorking());
  await page.getByRole("button", { name: "Menu" }).click();
  await expect(page.locator(".notice")).toBeVisible();
  expect(await faults(page)).toEqual([]);
  expect(await sticksOut(page)).toEqual([]);
});

test("what is tapped is 48 px, and no text is below 17 px", async ({ stand, page }) => {
  test.setTimeout(60_000);
  for (const hash of Object.values(SCREENS)) {
    await stand.open(hash);
    await unfold(page);
    const small = await page.evaluate(() => {
      const root = document.querySelector("stand-in").shadowRoot;
      const found = [];
      for (const one of root.querySelectorAll("button, select, input, textarea, summary, .ways label, .file")) {
        const { width, height } = one.getBoundingClientRect();
        const seen = one.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !one.closest(".skip");
        // The line an input stands in is what is tapped.
        const tall = one.matches("input, select, textarea") ? one.closest(".line, label")?.getBoundingClientRect().height ?? height : height;
        if (seen && (tall < 47.9 || width < 47.9)) found.push(`${one.tagName} ${width.toFixed(0)} x ${tall.toFixed(0)}: ${one.textContent.trim().slice(0, 30)}`);
      }
      const walk = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
      while (walk.nextNode()) {
        const holder = walk.currentNode.parentElement;
        if (!holder || !walk.currentNode.textContent.trim() || holder.closest("style") || !holder.checkVisibility()) continue;
        let size = parseFloat(getComputedStyle(holder).fontSize);
        const drawing = holder.closest("svg");
        if (drawing) size *= drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width;
        if (size < 16.95) found.push(`${size.toFixed(1)} px: ${walk.currentNode.textContent.trim().slice(0, 30)}`);
      }
      return found;
    });
    expect(small, hash || "first visit").toEqual([]);
  }
});

test("lines are at most 70 characters or so", async ({ stand, page }) => {
  await stand.open(SCREENS.rectifier);
  await unfold(page);
  const long = await page.evaluate(() => {
    const root = document.querySelector("stand-in").shadowRoot;
    return [...root.querySelectorAll("p, li, dd")].filter((one) => {
      const ruler = document.createElement("span");
      ruler.textContent = "0".repeat(70);
      ruler.style.cssText = "position:absolute;visibility:hidden;white-space:nowrap";
      one.append(ruler);
      const most = ruler.getBoundingClientRect().width;
      ruler.remove();
      const inner = [...one.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim().length > 70);
      return inner && one.getBoundingClientRect().width > most + 24;
    }).map((one) => one.textContent.trim().slice(0, 60));
  });
  expect(long).toEqual([]);
});

test("forced colours keep marks and choices apart", async ({ stand, page }) => {
  await page.emulateMedia({ forcedColors: "active" });
  await stand.open("#tube?set=12SK7&have=6SK7&heaters=series");
  const chosen = stand.question.locator(".ways input:checked + span").first();
  const other = stand.question.locator(".ways input:not(:checked) + span").first();
  const ground = (one) => one.evaluate((node) => getComputedStyle(node).backgroundColor);
  expect(await ground(chosen)).not.toBe(await ground(other));
  await expect(stand.verdict.locator("svg.sign.no")).toBeVisible();
});

test("printed, the folded parts are open and the controls gone", async ({ stand, page }) => {
  await stand.open("#tube?set=50B5&have=50C5&heaters=series");
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  await page.emulateMedia({ media: "print" });
  await expect(stand.answer.getByRole("table").filter({ hasText: "control grid, to 2, 5" })).toBeVisible();
  await expect(page.getByRole("navigation")).toBeHidden();
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  await expect(stand.answer.locator("details[open]")).toHaveCount(0);
});
