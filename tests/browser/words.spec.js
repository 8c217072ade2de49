// American or British words: chosen in the menu, kept, by default those of the device's language; whole screens in one of them.
import { SCREENS, expect, test } from "./bench.js";

test.skip(({ isMobile }) => !isMobile, "runs on the phone only: what is said is the same at a desk");

const element = (page) => page.locator("stand-in");
const menu = (page) => page.getByRole("button", { name: "Menu" }).click();

/** Everything that is read on the page, and heard; not what was typed, nor cells of the book and remarks in it. */
const heard = (page) =>
  page.evaluate(() => {
    const root = document.querySelector("stand-in").shadowRoot;
    root.querySelectorAll("details").forEach((one) => (one.open = true));
    const all = [];
    const walk = (node) => {
      if (node.nodeType === Node.TEXT_NODE) return void all.push(node.data.trim());
      if (!(node instanceof Element) || ["STYLE", "TEXTAREA", "OPTION"].includes(node.tagName) || node.closest("[data-own]")) return;
      for (const name of ["aria-label", "title", "placeholder"]) all.push(node.getAttribute(name) ?? "");
      node.childNodes.forEach(walk);
    };
    root.childNodes.forEach(walk);
    return all.filter(Boolean);
  });

/** What stays in Britain: parts of another shape, lines of a list, cords, the book's own words. */
const STAYS = /To the lines|(?:several|these) lines|AGC \(AVC\) line|AGC line|line[ -]cords?|cord|paper tube|ceramic tube|\b\d+ lines?\b|\b[Ll]ine \d+|one part a line|a line\b|[Ee]very line|[Yy]our line|Some lines|the line does not say|[Cc]orrect the line|first line names|plates in the stack|\d plates|rating plate|beam plates|fresh plate|scrape the plates|plates were not counted|The book on [^.]*\.|\w+_\w+/g;
const AMERICAN = /(?<![\w-])(tubes?|plates?|B[+-]|lines?|first filter|filters?|ground|grounded|antenna)(?!\w)/i;

test("chosen in the menu, the whole page speaks it at once, also after a reload", async ({ stand, page }) => {
  await stand.open("#supply/rectifier?original=selenium&line_v=120&first_uf=40&load_ma=60");
  await expect(element(page)).toHaveAttribute("lang", "en-US");
  await expect(stand.bar("Tube")).toBeVisible();
  await expect(stand.answer).toContainText("B+");
  await menu(page);
  await stand.choose("UK words");
  await expect(element(page)).toHaveAttribute("lang", "en-GB");
  await expect(stand.bar("Valve")).toBeVisible();
  await expect(stand.blank("reservoir capacitor")).toHaveValue("40");
  await expect(stand.answer).toContainText("HT");
  await expect(stand.answer).not.toContainText("B+");
  await page.reload();
  await expect(stand.bar("Valve")).toBeVisible();
  await expect(stand.answer).not.toContainText("B+");
  await menu(page);
  await stand.choose("US words");
  await expect(stand.answer).toContainText("B+");
  await expect(stand.answer).not.toContainText("HT");
});

test.describe("in Britain", () => {
  test.use({ locale: "en-GB" });
  test("the words are British from the first visit, unless others are chosen or given", async ({ stand, page }) => {
    await stand.open();
    await expect(stand.bar("Valve")).toBeVisible();
    await expect(stand.answer.locator(".lead")).toContainText("valve");
    await element(page).evaluate((one) => one.setAttribute("words", "us"));
    await expect(stand.bar("Tube")).toBeVisible();
    await expect(element(page)).toHaveAttribute("lang", "en-US");
    await menu(page);
    await expect(page.getByRole("radio", { name: "UK words" })).toHaveCount(0);
    await element(page).evaluate((one) => one.removeAttribute("words"));
    await expect(stand.bar("Valve")).toBeVisible();
    await stand.choose("US words");
    await page.reload();
    await expect(stand.bar("Tube")).toBeVisible();
  });

  test("what is typed stays as it is typed", async ({ stand, page }) => {
    await stand.open("#part/list?lines=C1+.05+400v+line+to+chassis+plate");
    await expect(stand.question.locator("textarea")).toHaveValue("C1 .05 400v line to chassis plate");
    await expect(stand.answer).toContainText("C1 .05 400v line to chassis plate");
    await stand.open("#part/capacitor?marking=tube");
    await expect(stand.answer).toContainText("tube");
    await expect(stand.answer).not.toContainText("valve");
  });

  test("valve, anode, HT and mains are understood", async ({ stand }) => {
    await stand.open("#part/list?lines=C1+.05+400v+mains+to+chassis%0AC2+16uF+450v+reservoir%0AR1+220k+anode+load%0AV1+valve");
    await expect(stand.answer).toContainText("class Y");
    await expect(stand.answer).not.toContainText("Not used");
  });

  for (const [name, hash] of Object.entries(SCREENS)) {
    test(`no American word on: ${name}`, async ({ stand, page }) => {
      await stand.open(hash);
      const all = await heard(page);
      expect(all.length).toBeGreaterThan(8);
      const typed = decodeURIComponent(hash.replaceAll("+", " "));
      const left = all.filter((text) => !typed.includes(text) && AMERICAN.test(text.replace(STAYS, "")));
      expect(left).toEqual([]);
    });
  }
});
