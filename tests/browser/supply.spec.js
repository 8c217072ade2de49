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
  const wave = await stand.answer.locator(".fold path.volts").getAttribute("d");
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

test("a common set asks for what it needs: a transformer for its winding", async ({ stand }) => {
  await stand.open("#supply/rectifier?original=tube&type=5Y3GT&first_uf=20&load_ma=70");
  await stand.choose("transformer, two plates");
  await expect(stand.verdict).toHaveText("Fill in the volts and the ohms of the transformer winding.");
  await stand.blank("winding, without load").fill("300");
  await stand.blank("its resistance").fill("150");
  // The crest of the winding before the tubes draw: 300 V x 1.414 = 424 V (arithmetic).
  await expect(stand.answer.getByRole("row", { name: /B\+ cold, peak/ })).toContainText("424 V");
});

test("a bridge and a doubler are solved as such", async ({ stand }) => {
  await stand.open("#supply/rectifier?wiring=bridge&original=silicon&target_v=250&secondary_v=200&secondary_ohm=20&first_uf=40&load_ma=60");
  // 200 V x 1.414 = 283 V (arithmetic).
  await expect(stand.answer.getByRole("row", { name: /B\+ cold, peak/ })).toContainText("283 V");
  await stand.open("#supply/rectifier?wiring=doubler&original=selenium&line_v=120&first_uf=100&load_ma=100");
  // Twice the crest of the line: 2 x 169.7 V = 339 V (arithmetic).
  await expect(stand.answer.getByRole("row", { name: /B\+ cold, peak/ })).toContainText("339 V");
  await expect(stand.answer.locator(".minute figcaption")).toContainText("The two capacitors share it: each has to be rated 200 V or more.");
});

test("the first minute is drawn with cold, warm and rating, and said", async ({ stand }) => {
  await stand.open("#supply/rectifier?original=selenium&line_v=120&first_uf=40&load_ma=60&rated_v=150");
  const drawing = stand.answer.getByRole("img", { name: /B\+ jumps to 16\d V before the tubes draw, and comes down to 15\d V by \d+ s/ });
  await expect(drawing).toBeVisible();
  await expect(drawing).toContainText("rated 150 V");
  await expect(drawing.locator("text.low")).toHaveText("rated 150 V");
  await expect(stand.answer.locator(".minute figcaption")).toContainText("On a line 10 % high: 187 V cold");
  await expect(stand.answer.locator(".minute figcaption")).toContainText("do not bear that");
  for (const path of await drawing.locator("path").all()) expect(await path.getAttribute("d")).not.toContain("NaN");
  await stand.answer.getByText("Other resistor values").click();
  await expect(stand.answer.getByText(/^From [\d.]+ ohm to [\d.]+ ohm B\+ changes by [\d.]+ V\.$/)).toBeVisible();
});

test("what was measured is said to mean something, and stays in sight when folded", async ({ stand }) => {
  await stand.open("#supply/rectifier?original=selenium&line_v=120&first_uf=40&load_ma=60");
  await expect(stand.answer.getByRole("heading", { name: "What the reading means" })).toHaveCount(0);
  await stand.question.getByText("I measured").click();
  await stand.blank("volts DC").fill("105");
  await stand.blank("ripple, on AC").fill("3");
  const reading = stand.answer.locator("section").filter({ has: stand.page.getByRole("heading", { name: "What the reading means" }) });
  await expect(reading).toContainText("105 V is less than a fresh selenium stack gives");
  await expect(stand.question.locator("summary").filter({ hasText: "I measured" })).toContainText("105 V, 3 V ~");
});

test("one rectifier tube for another: the verdict is about the tube, silicon is folded behind it", async ({ stand }) => {
  await stand.open("#supply/rectifier?wiring=two_plates&original=tube&type=5Y3GT&secondary_v=300&secondary_ohm=150&first_uf=20&load_ma=70");
  await stand.blank("put in instead").fill("5U4G");
  // A heater of 3 A on a winding for 2 A (handbook ratings of both types).
  await expect(stand.verdict.locator("h2")).toHaveText("No.");
  await expect(stand.answer.getByRole("heading", { name: "The other tube, point by point" })).toBeVisible();
  await expect(stand.answer.locator(".fit")).toBeHidden();
  await stand.answer.getByText("The way without a tube: silicon and a resistor").click();
  await expect(stand.answer.locator(".fit")).toBeVisible();
});

test("a portable is asked for its filaments, and their burning goes before the B+", async ({ stand }) => {
  await stand.open("#supply/rectifier?wiring=portable&original=selenium&line_v=120&first_uf=40&load_ma=15");
  await expect(stand.verdict).toHaveText("Fill in the battery tubes and the resistor that feeds their filaments.");
  await stand.blank("battery tubes on B+").fill("1R5 1U4 1U5 3V4");
  await stand.blank("fed through").fill("1500");
  await expect(stand.verdict.locator("h2")).toHaveText("The filaments first.");
  await expect(stand.answer).toContainText("as a dummy load");
});

test("what is missing and folded away is one tap off", async ({ stand }) => {
  await stand.open("#supply/rectifier?line_v=120&first_uf=40&load_ma=60");
  await expect(stand.verdict).toContainText("B+ wanted, from the drawing: this takes B+ at the first filter");
  await stand.answer.getByRole("button", { name: "Fill it in" }).click();
  await expect(stand.blank("B+ wanted, from the drawing")).toBeFocused();
});

test("a string with a cord and a lamp with its shunt; heater-cathode volts on the rungs", async ({ stand }) => {
  await stand.open("#supply/heaters?tubes=25Z6+25L6+6A8+6K7+6Q7&line_v=120");
  await stand.question.getByText("Lamp, cord, ballast or resistor in it?").click();
  await stand.question.getByRole("button", { name: "cord 180 ohm" }).click();
  await stand.question.getByRole("button", { name: "lamp 6.3 V 0.15 A with 50 ohm" }).click();
  await expect(stand.blank("Does this string work:")).toHaveValue("25Z6 25L6 6A8 6K7 6Q7 cord 180 ohm lamp 6.3 V 0.15 A with 50 ohm");
  const rungs = stand.answer.locator(".ladder li");
  await expect(rungs).toHaveCount(9);
  // 180 ohm at the rated 0.3 A take 54 V (arithmetic).
  await expect(rungs.nth(6)).toContainText("of 54 V");
  await expect(rungs.nth(2)).toContainText(/heater to cathode up to \d+ V/);
  await expect(stand.answer.getByRole("img", { name: /lamp 6\.3 V 0\.15 A gets the most: \d+ % of its volts/ })).toBeVisible();
  await stand.answer.getByText("The same as a table").click();
  await expect(stand.answer.getByRole("row", { name: /25L6/ }).last()).toContainText("26");
  for (const path of await stand.answer.locator("figure path").all()) expect(await path.getAttribute("d")).not.toContain("NaN");
});

test("ways beside a dropper are folded; a line the set is not made for has its own", async ({ stand }) => {
  await stand.open("#supply/heaters?tubes=50C5+12BE6+12BA6+12AT6&line_v=120");
  const ways = stand.answer.locator(".fold", { hasText: "Other ways than a dropper" });
  await expect(ways).toContainText("class X2");
  await expect(ways.getByText(/A capacitor in series instead/)).toBeHidden();
  await ways.locator("summary").click();
  await expect(ways.getByText(/A capacitor in series instead/)).toBeVisible();
  // On DC no capacitor can drop anything (common practice, no source).
  await stand.choose("DC");
  await expect(ways).toHaveCount(0);
  await stand.question.getByText("Made for another line?").click();
  await stand.blank("the nameplate says").fill("220");
  await expect(stand.verdict.locator("h2")).toHaveText("Not on this line.");
});

test("heaters side by side on a winding: its amperes", async ({ stand }) => {
  await stand.open("#supply/heaters?tubes=6X4+6BA6+6BE6");
  await stand.choose("side by side on a winding");
  await expect(stand.verdict).toHaveText("Fill in the volts of the heater winding.");
  await stand.question.getByRole("button", { name: "6.3", exact: true }).click();
  await stand.blank("and is made for").fill("1");
  // 0.6 + 0.3 + 0.3 A (handbook ratings) = 1.2 A.
  await expect(stand.verdict).toContainText("1.2 A");
  await expect(stand.answer.locator(".ladder li").first()).toContainText("winding 6.3 V");
  await expect(stand.answer.locator("figure")).toHaveCount(0);
});

test("printed, folded answers are open, blanks left empty and everything to tap gone", async ({ stand, page }) => {
  await stand.open("#supply/rectifier?original=selenium&line_v=120&first_uf=40&load_ma=60");
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  await expect(stand.answer.getByRole("img", { name: /B\+ jumps/ })).toBeVisible();
  await expect(stand.answer.getByRole("img", { name: /In one cycle/ })).toBeVisible();
  await expect(stand.blank("first filter")).toBeVisible();
  await expect(stand.blank("second filter")).toBeHidden();
  await expect(stand.question.getByText("a rectifier tube")).toBeHidden();
  await expect(stand.question.getByText("a selenium stack")).toBeVisible();
  // Ink on paper, also from a dark screen.
  expect(await stand.verdict.locator("p").evaluate((one) => getComputedStyle(one).color)).toBe("rgb(31, 27, 20)");
});
