// The first visit, and coming back.
import { expect, test } from "./bench.js";

test("a first visit says what the page does and offers three examples", async ({ stand }) => {
  await stand.open();
  await expect(stand.answer.locator(".lead")).toContainText("what can go in instead");
  await expect(stand.answer.locator(".welcome > .examples button")).toHaveCount(3);
  await expect(stand.verdict).toHaveText("Type what the set wants.");
});

for (const [place, words] of [["12BA6", "12AU6"], ["selenium", "1N4007"], [".02 mfd", "0.022 uF"]]) {
  test(`the example with ${place} is answered with ${words}, and Back returns`, async ({ stand, page }) => {
    await stand.open();
    await stand.answer.locator(".welcome > .examples button").filter({ hasText: place }).click();
    await expect(stand.verdict).toContainText(words);
    await page.goBack();
    await expect(stand.answer.locator(".welcome")).toBeVisible();
  });
}

test("the kitchen set is answered question by question", async ({ stand, page }) => {
  await stand.open();
  await stand.answer.getByText("A whole set to try").click();
  const says = await stand.answer.locator(".welcome details .examples button").allInnerTexts();
  expect(says.length).toBeGreaterThanOrEqual(5);
  for (const say of says) {
    await stand.answer.getByText("A whole set to try").waitFor();
    if (!(await stand.answer.locator(".welcome details").evaluate((one) => one.open))) await stand.answer.getByText("A whole set to try").click();
    await stand.answer.getByRole("button", { name: say }).click();
    await expect(stand.verdict.locator("h2"), say).not.toHaveText(/Cannot read|Not in the book|Cannot answer/);
    await page.goBack();
  }
});

test("after a question of one's own the welcome is gone, also on the next visit", async ({ stand, page }) => {
  await stand.open();
  await stand.blank("The set wants").fill("6SK7");
  await expect(stand.verdict).toContainText("6SK7");
  await stand.question.getByRole("button", { name: "Clear", exact: true }).click();
  await expect(stand.verdict).toHaveText("Type what the set wants.");
  await expect(stand.answer.locator(".welcome")).toHaveCount(0);
  await page.goto("about:blank");
  await stand.open();
  await expect(stand.answer.locator(".welcome")).toHaveCount(0);
});

test("what was filled in last is there on the next visit, and one tap clears it", async ({ stand, page }) => {
  await stand.open();
  await stand.blank("The set wants").fill("6SK7");
  await stand.choose("in parallel");
  await expect(page).toHaveURL(/set=6SK7&heaters=parallel/);
  await page.goto("about:blank");
  await stand.open();
  await expect(stand.blank("The set wants")).toHaveValue("6SK7");
  await stand.question.getByRole("button", { name: "Clear: The set wants" }).click();
  await expect(stand.blank("The set wants")).toHaveValue("");
  await expect(stand.blank("The set wants")).toBeFocused();
  await expect(stand.question.getByRole("radio", { name: "in parallel" })).toBeChecked();
});

test("storage that is refused leaves the page working", async ({ stand, page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, "localStorage", { get: () => { throw new DOMException("refused", "SecurityError"); } });
    Object.defineProperty(window, "indexedDB", { value: { open: () => { throw new DOMException("refused", "SecurityError"); } } });
  });
  await stand.open("#tube?set=6SK7");
  await expect(stand.verdict).toContainText("6SK7");
});

test("the theme is chosen behind the menu and kept", async ({ stand, page }) => {
  await stand.open();
  const ground = () => page.evaluate(() => getComputedStyle(document.querySelector("stand-in")).backgroundColor);
  await page.getByRole("button", { name: "Menu" }).click();
  await page.getByRole("radio", { name: "dark", exact: true }).check();
  const dark = await ground();
  await page.getByRole("radio", { name: "light", exact: true }).check();
  expect(await ground()).not.toBe(dark);
  await page.getByRole("radio", { name: "dark", exact: true }).check();
  await page.reload();
  await expect.poll(ground).toBe(dark);
});
