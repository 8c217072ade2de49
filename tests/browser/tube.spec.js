// The place Tube. What is expected of a swap is what tests/tables/swaps.csv says of it, from memory of receiving-tube manuals.
import { expect, test } from "./bench.js";

test("a type is answered as it is typed: what it is and what can go in", async ({ stand, page }) => {
  await stand.open();
  await stand.blank("The set wants").pressSequentially("12sk7 gt");
  await expect(stand.verdict).toContainText("12SK7GT");
  await expect(stand.verdict).toContainText("pentode, remote cut-off");
  await expect(stand.answer.getByRole("button", { name: /^12SK7\b/ }).first()).toBeVisible();
  await expect(page).toHaveURL(/#tube\?set=12sk7\+gt$/);
});

test("a stand-in is one tap from its judgement, and Back returns to the list", async ({ stand, page }) => {
  await stand.open("#tube?set=12SK7&heaters=series");
  await stand.answer.getByRole("button", { name: /^12SK7GT\b/ }).first().click();
  await expect(stand.blank("I have")).toHaveValue("12SK7GT");
  await expect(stand.verdict).toContainText("Yes, but the set will behave differently.");
  await page.goBack();
  await expect(stand.blank("I have")).toHaveValue("");
  await expect(stand.answer.getByRole("heading", { name: "What can go in" })).toBeVisible();
});

test("with the supply not known both ways are answered side by side", async ({ stand }) => {
  await stand.open("#tube?set=12AU7&have=5814A");
  await expect(stand.verdict).toContainText("depends on how the heaters are fed");
  const ways = stand.answer.locator(".way");
  await expect(ways).toHaveCount(2);
  await expect(ways.filter({ hasText: "Heaters in series" }).locator("header p")).toHaveText("No.");
  await expect(ways.filter({ hasText: "Heaters in parallel" }).locator("header p")).toHaveText(/^Yes/);
});

test("what both ways say alike is said once", async ({ stand }) => {
  await stand.open("#tube?set=12AX7&have=12AU7");
  await expect(stand.answer.locator(".way")).toHaveCount(0);
  await expect(stand.answer.getByText(/The same with heaters in series.* and with heaters in parallel/)).toBeVisible();
});

test("choosing the supply leaves one way", async ({ stand }) => {
  await stand.open("#tube?set=12AU7&have=5814A");
  await stand.choose("in series");
  await expect(stand.answer.locator(".way")).toHaveCount(0);
  await expect(stand.verdict.locator("h2")).toHaveText("No.");
  await expect(stand.verdict).toHaveClass(/\bno\b/);
});

test("a type that is not found gives near names to tap and the way into the book", async ({ stand, page }) => {
  await stand.open();
  await stand.blank("The set wants").fill("12SX7Q");
  await expect(stand.verdict).toContainText("Not found.");
  const near = stand.answer.locator(".near button");
  expect(await near.count()).toBeGreaterThanOrEqual(3);
  const name = await near.first().innerText();
  await near.first().click();
  await expect(stand.blank("The set wants")).toHaveValue(name);
  await expect(stand.verdict).toContainText(name);
  await page.goBack();
  await stand.answer.getByRole("button", { name: "Add it to my book" }).click();
  await expect(page.getByRole("heading", { name: "Add 12SX7Q to my book" })).toBeVisible();
  await page.goBack();
  await stand.answer.getByRole("button", { name: "What could 12SX7Q be?" }).click();
  await expect(stand.blank("I can read")).toHaveValue("12SX7Q");
});

// 6J5GT: an octal triode, 6.3 V 0.3 A, from memory of receiving-tube manuals.
test("a worn character in a blank lists the types that fit, each one tap away", async ({ stand, page }) => {
  await stand.open();
  await stand.blank("The set wants").fill("6?5gt");
  await expect(stand.verdict).toContainText(/^\s*\d+ types fit\./);
  await stand.answer.getByRole("button", { name: /^6J5GT\b/ }).click();
  await expect(stand.blank("The set wants")).toHaveValue("6J5GT");
  await expect(stand.verdict).toContainText("6J5GT");
  await page.goBack();
  await stand.answer.getByRole("button", { name: "Tell more of it: base, pins, heater" }).click();
  await expect(stand.blank("I can read")).toHaveValue("6?5gt");
  await expect(stand.blank("base")).toBeFocused();
});

test("what could this be: base, heater and function narrow it down, and a match opens its own page", async ({ stand, page }) => {
  await stand.open();
  await stand.question.getByRole("button", { name: "What is it?" }).click();
  await expect(stand.verdict).toHaveText("Fill in what you can still read or measure.");
  await stand.blank("I can read").fill("?SK7");
  await expect(stand.verdict).toContainText("fit");
  const all = await stand.answer.locator(".candidate").count();
  // 12.6 V is what everybody calls 12 V.
  await stand.question.getByText("What else I know of it").click();
  await stand.blank("base").selectOption("octal");
  await stand.blank("heater volts").fill("12");
  await stand.choose("no");
  await stand.blank("what it does").selectOption("pentode");
  await expect(page).toHaveURL(/#tube\/search\?text=%3FSK7&base=octal&top_cap=no&heater_v=12&function=pentode$/);
  expect(await stand.answer.locator(".candidate").count()).toBeLessThan(all);
  await page.reload();
  await expect(stand.blank("heater volts")).toHaveValue("12");
  await stand.answer.getByRole("button", { name: /^12SK7\b/ }).first().click();
  await expect(stand.blank("The set wants")).toHaveValue("12SK7");
  await expect(stand.verdict).toContainText("12SK7");
  await page.goBack();
  await expect(stand.blank("I can read")).toHaveValue("?SK7");
});

test("a tube's own page names where its figures come from and opens its row", async ({ stand, page }) => {
  await stand.open("#tube?set=12SK7");
  await expect(stand.answer).toContainText("From memory, checked against no sheet yet.");
  await stand.answer.getByRole("button", { name: /Its row in the book/ }).click();
  await expect(page.getByRole("heading", { name: "12SK7 in my book" })).toBeVisible();
  await page.getByRole("button", { name: "Back", exact: true }).click();
  await expect(stand.blank("The set wants")).toHaveValue("12SK7");
});

test("in a swap the near names fill the blank that was not found", async ({ stand }) => {
  await stand.open("#tube?set=12SK7&have=12SX7Q");
  await expect(stand.verdict).toContainText("Not in the book.");
  await expect(stand.blank("I have")).toHaveAttribute("aria-invalid", "true");
  const name = await stand.answer.locator(".near button").first().innerText();
  await stand.answer.locator(".near button").first().click();
  await expect(stand.blank("I have")).toHaveValue(name);
  await expect(stand.blank("The set wants")).toHaveValue("12SK7");
});

// EIA 7BZ and 7CV, from memory of receiving-tube manuals: 50B5 and 50C5 differ in grid, cathode and plate.
test("wires to move are drawn, listed, and said to a screen reader", async ({ stand }) => {
  await stand.open("#tube?set=50B5&have=50C5&heaters=series");
  await expect(stand.verdict.locator("h2")).toHaveText("Only after changes.");
  const rows = stand.answer.locator("table.moves tbody tr");
  await expect(rows).toHaveText([/control grid\s*1 and 7\s*2 and 5/, /cathode\s*2\s*1/, /plate\s*5\s*7/]);
  const [set, candidate] = await stand.answer.getByRole("img", { name: /from below/ }).all();
  await expect(set).toHaveAccessibleName(/pin 5: plate, to 7/);
  await expect(candidate).toHaveAccessibleName(/pin 7: plate, from 5/);
  await expect(set.locator("path.move")).toHaveCount(4);
  await expect(candidate.locator(".warn")).toHaveCount(4);
  await expect(stand.answer.locator(".danger")).toContainText("pins 1, 2, 5, 7");
});

// The key of an octal base lies between pins 8 and 1; seen from below the pins count clockwise (EIA, common to all octal bases).
test("pins stand at their angles, clockwise from the key at the bottom", async ({ stand }) => {
  await stand.open("#tube?set=12SK7");
  const places = await stand.answer.locator(".socket .pin").evaluateAll((pins) =>
    pins.map((pin) => {
      const box = pin.querySelector("circle, rect").getBBox();
      return { pin: pin.textContent.trim(), x: box.x + box.width / 2 - 170, y: box.y + box.height / 2 - 148 };
    }),
  );
  expect(places.map(({ pin }) => pin)).toEqual(["1", "2", "3", "4", "5", "6", "7", "8"]);
  for (const [at, { pin, x, y }] of places.entries()) {
    const degrees = (Math.atan2(-x, y) * 180) / Math.PI;
    expect((degrees + 360) % 360, `pin ${pin}`).toBeCloseTo(22.5 + 45 * at, 1);
  }
  await expect(stand.answer.locator(".socket .heater rect")).toHaveCount(2);
});

test("when it cannot be told, the missing facts are named and offered to be filled in", async ({ stand, page }) => {
  await stand.open("#tube?set=35Z5GT&have=35Y4");
  await expect(stand.verdict.locator("h2")).toHaveText("Cannot tell.");
  await expect(stand.answer.getByText("pins of 35Y4").first()).toBeVisible();
  await stand.answer.getByRole("button", { name: "Fill in 35Y4 in my book" }).first().click();
  await expect(page.getByRole("heading", { name: "35Y4 in my book" })).toBeVisible();
  await expect(stand.blank("pins seen from below")).toBeFocused();
  await page.goBack();
  await expect(stand.verdict.locator("h2")).toHaveText("Cannot tell.");
});

// Plate volts 450 against 300, from memory of receiving-tube manuals.
test("figures of the set change the judgement", async ({ stand, page }) => {
  await stand.open("#tube?set=6SN7GTB&have=6SN7GT&heaters=parallel");
  await expect(stand.verdict.locator("h2")).toHaveText("No.");
  await stand.question.getByText("What I know of the place").click();
  await stand.question.getByText("Volts, current, resistors").click();
  await stand.blank("highest plate volts").fill("200");
  await stand.blank("plate current").fill("5,5");
  await expect(page).toHaveURL(/plate_v=200&plate_ma=5%2C5/);
  await expect(stand.verdict.locator("h2")).toHaveText("Yes, as it stands.");
});

test("a figure that is none is named by its blank, with what is accepted", async ({ stand }) => {
  await stand.open("#tube?set=12SK7&have=12SG7");
  await stand.question.getByText("What I know of the place").click();
  await stand.question.getByText("Volts, current, resistors").click();
  await stand.blank("highest plate volts").fill("lots");
  await expect(stand.question.locator(".fault")).toContainText("highest plate volts: found \"lots\"; accepted: a number of volts from");
  await expect(stand.blank("highest plate volts")).toHaveAttribute("aria-invalid", "true");
});

test("a figure that is none does not leave the list of stand-ins missing without a word", async ({ stand }) => {
  await stand.open("#tube?set=12SK7&plate_v=lots");
  await expect(stand.verdict).toContainText("pentode, remote cut-off");
  await expect(stand.answer.locator(".fault")).toContainText("highest plate volts: found \"lots\"; accepted: a number of volts");
});

test("only the tube at hand: what it is, and what is still to be filled in", async ({ stand }) => {
  await stand.open();
  await stand.blank("I have").fill("ecc 83");
  await expect(stand.verdict).toContainText("12AX7");
  await expect(stand.answer).toContainText("Now fill in what the set wants");
});

test("the keyboard alone is enough", async ({ stand, page }) => {
  await stand.open();
  // At a desk the first blank has the focus from the start; the way is walked from the top all the same.
  await page.getByRole("button", { name: "To the answer" }).focus();
  await page.keyboard.press("Tab");
  await expect(page.getByRole("button", { name: "Menu" })).toBeFocused();
  for (const name of ["What fits?", "Good for?", "A whole set", "What is it?"]) {
    await page.keyboard.press("Tab");
    await expect(page.getByRole("button", { name })).toBeFocused();
  }
  await page.keyboard.press("Tab");
  await expect(stand.blank("The set wants")).toBeFocused();
  await page.keyboard.type("12SK7");
  await page.keyboard.press("Tab");
  await expect(page.getByRole("button", { name: "Clear: The set wants" })).toBeFocused();
  await page.keyboard.press("Tab");
  await expect(stand.blank("I have")).toBeFocused();
  await page.keyboard.type("12SK7GT");
  await page.keyboard.press("Enter");
  await expect(stand.verdict).toContainText("Yes, but the set will behave differently.");
  await expect(page).toHaveURL(/set=12SK7&have=12SK7GT/);
});

test("Esc empties the blank it is pressed in and closes the menu", async ({ stand, page }) => {
  await stand.open("#tube?set=12SK7&have=12SK7GT");
  await stand.blank("I have").focus();
  await page.keyboard.press("Escape");
  await expect(stand.blank("I have")).toHaveValue("");
  await expect(stand.blank("I have")).toBeFocused();
  await expect(page).toHaveURL(/#tube\?set=12SK7$/);
  const button = page.getByRole("button", { name: "Menu" });
  await button.click();
  await expect(page.locator("#menu")).toBeVisible();
  await page.keyboard.press("Tab");
  await page.keyboard.press("Escape");
  await expect(page.locator("#menu")).toHaveCount(0);
  await expect(button).toBeFocused();
});

test("the skip button leads to the answer", async ({ stand, page }) => {
  await stand.open("#tube?set=12SK7");
  await page.getByRole("button", { name: "To the answer" }).focus();
  await page.keyboard.press("Enter");
  await expect(stand.answer).toBeFocused();
});

test("a reload returns to the state of the address", async ({ stand, page }) => {
  await stand.open("#tube?set=12AU7&have=5814A&heaters=series");
  await page.reload();
  await expect(stand.blank("The set wants")).toHaveValue("12AU7");
  await expect(stand.question.getByRole("radio", { name: "in series" })).toBeChecked();
  await expect(stand.verdict.locator("h2")).toHaveText("No.");
});

test("places keep what was filled in, and Back walks through them", async ({ stand, page }) => {
  await stand.open("#tube?set=12SK7");
  await stand.bar("Supply").click();
  await expect(page).toHaveURL(/#supply\/rectifier/);
  await expect(stand.bar("Supply")).toHaveAttribute("aria-current", "page");
  await stand.bar("Tube").click();
  await expect(stand.blank("The set wants")).toHaveValue("12SK7");
  await page.goBack();
  await expect(stand.bar("Supply")).toHaveAttribute("aria-current", "page");
  await page.goBack();
  await expect(stand.blank("The set wants")).toHaveValue("12SK7");
});

test("the verdict is a live region that stays in the page while it changes", async ({ stand }) => {
  await stand.open("#tube?set=12SK7&have=6SK7");
  await expect(stand.verdict).toHaveAttribute("aria-live", "polite");
  const heights = async () => (await stand.verdict.boundingBox()).y;
  const before = await heights();
  await stand.blank("I have").fill("12SK7GT");
  await expect(stand.verdict).toContainText("behave differently");
  expect(await heights()).toBe(before);
});
