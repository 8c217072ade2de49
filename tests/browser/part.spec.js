// The place Part.
import { expect, test } from "./bench.js";

// IEC 60063: 22 stands in E6, 20 does not; IEC 60062: 223 is 22 nF.
test("an old paper capacitor gets today's value, rating and the code printed on it", async ({ stand }) => {
  await stand.open("#part/capacitor");
  await stand.blank("It is marked").fill(".02 mfd 400v");
  await stand.blank("it sits").selectOption({ label: "between two stages (coupling)" });
  await expect(stand.answer.locator(".fit")).toContainText("0.022 uF (22 nF)");
  await expect(stand.answer.locator(".fit")).toContainText("630 V DC");
  await expect(stand.answer.locator(".fit code")).toContainText("223");
});

// IEC 60384-14: between line and touchable metal class Y.
test("from the line to the chassis a safety class is asked for", async ({ stand }) => {
  await stand.open("#part/capacitor?marking=.05+400v");
  await stand.blank("it sits").selectOption({ label: "from the line to the chassis" });
  await stand.blank("on a line of").fill("120");
  await stand.choose("60 Hz");
  await expect(stand.answer.locator(".fit")).toContainText(/safety class Y[12]/);
});

test("each section of a can is shown", async ({ stand }) => {
  await stand.open("#part/capacitor?marking=16-8+450v");
  await expect(stand.answer.locator(".fit dt")).toContainText(["Section 1", "Section 2"]);
});

test("another reading of the marking is one tap away", async ({ stand, page }) => {
  await stand.open("#part/resistor?marking=50M");
  await stand.answer.getByRole("button", { name: /^50 Mohm/ }).click();
  await expect(stand.blank("It is marked")).toHaveValue("50 Mohm");
  await expect(stand.verdict).toContainText("50 Mohm");
  await page.goBack();
  await expect(stand.blank("It is marked")).toHaveValue("50M");
});

// 560 k is 12 % above 500 k, 680 k is 36 % above (arithmetic), against a marked tolerance of 20 %.
test("a measured resistor is left in or replaced by its own tolerance", async ({ stand }) => {
  await stand.open("#part/resistor");
  await stand.blank("It is marked").fill("500k 20%");
  await stand.blank("and measures").fill("560k");
  await expect(stand.verdict.locator("h2")).toHaveText("Leave it in.");
  await stand.blank("and measures").fill("0.68 M");
  await expect(stand.verdict.locator("h2")).toHaveText("Replace it.");
  await expect(stand.verdict).toContainText("36 %");
});

test("a marking that cannot be read says what is accepted", async ({ stand }) => {
  await stand.open("#part/capacitor?marking=zzz");
  await expect(stand.verdict).toContainText("Cannot read this.");
  await expect(stand.verdict).toContainText(".02 mfd 400v");
});

test("where the watts cannot be told, the blanks that settle it are offered", async ({ stand }) => {
  await stand.open("#part/resistor?marking=50k");
  await expect(stand.verdict).toHaveClass(/unknown/);
  await stand.answer.getByRole("button", { name: "More about its place" }).click();
  await expect(stand.blank("volts across it")).toBeFocused();
  await stand.blank("watts of the old part").fill("1");
  await expect(stand.verdict).not.toHaveClass(/unknown/);
});
