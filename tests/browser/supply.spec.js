// The place Supply. The figures are the core's, which its own tests hold against ngspice; here it is that they reach the page.
import { expect, test } from "./bench.js";

test("a selenium stack: diode, resistor and the three line voltages", async ({ stand }) => {
  await stand.open("#supply/rectifier");
  await expect(stand.verdict).toHaveText("Fill in the first filter and the load.");
  await stand.choose("a selenium stack");
  await stand.question.getByRole("button", { name: "123", exact: true }).click();
  await stand.blank("first filter").fill("40");
  await stand.blank("the set draws").fill("60");
  await expect(stand.verdict.locator("h2")).toHaveText(/^Fit \d+ ohm, \d+ W\.$/);
  const fit = stand.answer.locator(".fit");
  await expect(fit).toContainText("1N4007");
  await expect(stand.answer.getByRole("columnheader")).toContainText(["low110.7 V", "as given123 V", "high135.3 V"]);
  // The crest of the line before the tubes draw: 123 V x 1.414 = 173.9 V (arithmetic).
  await expect(stand.answer.getByRole("row", { name: /B\+ cold, peak/ })).toContainText("174 V");
});

test("the wave is drawn and said", async ({ stand }) => {
  await stand.open("#supply/rectifier?original=selenium&line_v=120&first_uf=40&load_ma=60");
  await stand.answer.getByText("One cycle at the first filter").click();
  // One cycle of 60 Hz is 16.7 ms (arithmetic).
  await expect(stand.answer.getByRole("img", { name: /In one cycle of 16\.7 ms the first filter swings between \d+ V and \d+ V/ })).toBeVisible();
  const wave = await stand.answer.locator("path.volts").getAttribute("d");
  expect(wave.split("L").length).toBeGreaterThan(20);
  expect(wave).not.toContain("NaN");
});

test("a rectifier tube asks for its type, and says what goes with it", async ({ stand }) => {
  await stand.open("#supply/rectifier?first_uf=40&load_ma=60&line_v=120");
  await stand.choose("a rectifier tube");
  await expect(stand.verdict).toHaveText("Type which rectifier tube it is.");
  await stand.blank("which tube").fill("35W4");
  await expect(stand.verdict).toContainText("35W4");
  await expect(stand.answer.getByRole("heading", { name: "What goes with the old rectifier" })).toBeVisible();
});

test("filter capacitors rated too low are refused", async ({ stand }) => {
  await stand.open("#supply/rectifier?original=selenium&line_v=120&first_uf=40&load_ma=60&rated_v=150");
  await expect(stand.verdict).toContainText("150 V");
  await expect(stand.answer.locator(".finding.fails").first()).toBeVisible();
});

test("a heater string stands as a ladder with volts and percent on every rung", async ({ stand }) => {
  await stand.open("#supply/heaters");
  await stand.blank("Does this string work:").fill("50C5, 12BE6 12BA6\n12AT6 35W4");
  await stand.question.getByRole("button", { name: "120", exact: true }).click();
  const rungs = stand.answer.locator(".ladder li");
  await expect(rungs).toHaveCount(7);
  await expect(rungs.first()).toContainText("line");
  await expect(rungs.last()).toContainText("chassis");
  // 50 + 12.6 + 12.6 + 12.6 + 35 = 122.8 V (arithmetic on the rated volts).
  await expect(stand.answer.locator(".facts")).toContainText("122.8 V");
  await expect(rungs.nth(1)).toHaveText(/50C5\s*48\.9 V of 50 V\s*97\.7 %/);
  await expect(rungs.nth(1).getByRole("img", { name: "fine" })).toBeVisible();
});

test("a type of the string that is not found is replaced where it stands", async ({ stand }) => {
  await stand.open("#supply/heaters?tubes=50C5+12BX0+12BA6&line_v=120");
  await expect(stand.verdict).toContainText("Not in the book.");
  const near = stand.answer.locator(".near button").first();
  const name = await near.innerText();
  await near.click();
  await expect(stand.blank("Does this string work:")).toHaveValue(`50C5 ${name} 12BA6`);
});

test("Enter in the list of tubes answers and makes no new line", async ({ stand, page }) => {
  await stand.open("#supply/heaters");
  await stand.blank("Does this string work:").fill("50C5 12BE6");
  await page.keyboard.press("Enter");
  await expect(stand.answer.locator(".ladder")).toBeVisible();
  await page.goto("about:blank");
  await page.goBack();
  await expect(stand.blank("Does this string work:")).toHaveValue("50C5 12BE6");
});

test("a line that is no number is named by its blank", async ({ stand }) => {
  await stand.open("#supply/rectifier?line_v=abc&first_uf=40&load_ma=60");
  await expect(stand.verdict).toContainText("on a line of: found \"abc\"; accepted: a number of volts rms from 20 to 300.");
});
