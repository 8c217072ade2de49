// The place Part.
import { expect, test } from "./bench.js";

// IEC 60063: 22 stands in E6, 20 does not; IEC 60062: 223 is 22 nF.
test("an old paper capacitor gets today's value, rating and the code printed on it", async ({ stand }) => {
  await stand.open("#part/capacitor");
  await stand.blank("It is marked").fill(".02 mfd 400v");
  await stand.blank("it sits").selectOption({ label: "coupling, between two stages" });
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

const tap = (stand, name) => stand.question.getByRole("group", { name: /^Colour of/ }).getByRole("button", { name, exact: true }).click();

// IEC 60062: yellow 4, violet 7, orange three noughts, silver 10 %.
test("bands tapped on the drawn part are read, faded ones apart, and one tap gives what replaces it", async ({ stand, page }) => {
  await stand.open("#part/colours");
  for (const name of ["yellow", "violet", "orange"]) await tap(stand, name);
  await expect(stand.verdict).toContainText("Now tap the colour of band 4.");
  await tap(stand, "silver");
  await expect(stand.verdict).toContainText("47 kohm, 10 %");
  await expect(stand.question.getByRole("button", { name: "band 3 orange" })).toBeVisible();
  const faded = stand.answer.locator("section", { has: page.getByRole("heading", { name: "If one colour has faded" }) });
  await expect(faded).toContainText("4.7 kohm");
  await expect(stand.answer.locator(".colour-readings")).not.toContainText("4.7 kohm");
  await stand.answer.getByRole("button", { name: "What replaces it? 47 kohm, 10 %" }).click();
  await expect(stand.blank("It is marked")).toHaveValue("47 kohm, 10 %");
  await page.goBack();
  await expect(stand.verdict).toContainText("47 kohm, 10 %");
  await expect(stand.blank("or type them")).toHaveValue("yellow violet orange silver");
});

test("a mark is corrected with the keyboard alone", async ({ stand, page }) => {
  await stand.open("#part/colours?colours=yellow+violet+orange+silver");
  await stand.question.getByRole("button", { name: "band 3 orange" }).focus();
  await page.keyboard.press("Enter");
  const palette = stand.question.getByRole("group", { name: "Colour of band 3" });
  await palette.getByRole("button", { name: "red", exact: true }).focus();
  await page.keyboard.press("Space");
  await expect(stand.verdict).toContainText("4.7 kohm, 10 %");
});

// Body green 5, end black 0, dot yellow four noughts: 500 kohm (RMA, body, end, dot).
test("typed colours are drawn, and other parts have other marks", async ({ stand }) => {
  await stand.open("#part/colours");
  await stand.blank("It is").selectOption({ label: "a resistor: body, end, dot" });
  await stand.blank("or type them").fill("green black yellow");
  await expect(stand.verdict).toContainText("500 kohm");
  await expect(stand.question.getByRole("button", { name: "2 end black" })).toBeVisible();
  await stand.blank("It is").selectOption({ label: "a flat part with dots" });
  await expect(stand.question.locator("button.mark")).toHaveCount(6);
  await expect(stand.verdict).toContainText("Tap a colour for each mark.");
  await stand.choose("5 dots");
  await expect(stand.question.locator("button.mark")).toHaveCount(5);
});

// EIA: white type dot, then 2, 5, and read from the right in the lower row: brown one nought, silver 10 %: 250 pF.
test("a mica goes on as a mica, with what was measured", async ({ stand }) => {
  await stand.open("#part/colours?code=mica_dots&colours=white+red+green+brown+silver+brown&measured=0.26n");
  await expect(stand.verdict).toContainText("250 pF, 10 %");
  await stand.answer.getByRole("button", { name: "What replaces it? 250 pF, 10 %" }).click();
  await expect(stand.blank("it is made of")).toHaveValue("mica");
  await expect(stand.blank("it measures")).toHaveValue("0.26n");
});

test("colours that cannot stand where they are, and words that are no colours, are told", async ({ stand }) => {
  await stand.open("#part/colours?code=paper_bands&colours=gold+silver+gold+black+pink");
  await expect(stand.verdict).toContainText("No such code.");
  await expect(stand.answer).toContainText("cannot stand there");
  await stand.blank("or type them").fill("gold silver gold black purplish");
  await expect(stand.question.locator(".fault")).toContainText("purplish");
});

test("a whole list: every line stands with its word, what is bought is counted, what cannot be read is kept", async ({ stand, page }) => {
  await stand.open("#part/list");
  const lines = ["C1 .05 mfd 400 V line to chassis", "C2 .02 400v coupling", "C3 .02-400 coupling to output grid", "C4 250 mmf mica 500V", "", "C9 .1 line",
    "R2 470K 20% 1/2 W grid leak", "R9 volume control 500k", "smudged, brown body"];
  await stand.blank("My list, one part a line").fill(lines.join("\n"));
  await stand.blank("on a line of").fill("120");
  const all = stand.answer.getByRole("table", { name: "Every line" });
  await expect(all.locator("tbody tr")).toHaveCount(lines.filter(Boolean).length);
  const states = ["buy", "buy", "buy", "leave in", "look first", "buy", "not for here", "cannot read"];
  for (const [at, state] of states.entries()) await expect(all.locator("tbody tr").nth(at).locator(".state")).toHaveText(state);
  await expect(all.locator("tbody tr").last()).toContainText("smudged, brown body");
  await expect(stand.answer.getByRole("table", { name: "Look at these first" }).locator("tbody tr")).toHaveCount(2);
  const two = stand.answer.locator(".shopping li", { hasText: "0.022 uF (22 nF)" });
  await expect(two).toContainText("2 ×");
  await expect(two).toContainText("marked 223");
  await expect(two).toContainText("for C2, C3");
  await expect(stand.answer.locator(".shopping li", { hasText: /class Y[12]/ })).toHaveCount(1);
  await page.emulateMedia({ media: "print" });
  await expect(stand.answer.locator(".shopping")).toBeVisible();
  await expect(stand.question).toBeHidden();
});

test("Enter begins a new line of a list, and a reload brings a long one back whole", async ({ stand, page }) => {
  await stand.open("#part/list");
  const blank = stand.blank("My list, one part a line");
  await blank.fill("C1 .02 400v");
  await blank.press("Enter");
  await blank.pressSequentially("C2");
  await expect(blank).toHaveValue("C1 .02 400v\nC2");
  const long = Array.from({ length: 60 }, (_, at) => `C${at + 1} .02 mfd 400 V coupling to the next grid`).join("\n");
  await blank.fill(long);
  await expect(stand.answer.locator(".shopping")).toContainText("60 ×");
  await page.reload();
  await expect(blank).toHaveValue(long);
  await expect(stand.answer.locator(".shopping")).toContainText("60 ×");
});

// 2.5 V at a 470 kohm grid leak: 5.3 uA (Ohm's law).
test("a coupling capacitor is judged by the volts it puts on the next grid", async ({ stand }) => {
  await stand.open("#part/capacitor?marking=.02+mfd+400v&role=coupling");
  await stand.answer.page().getByText("Is it still good?").click();
  await stand.blank("volts at the next grid, that tube out").fill("2.5");
  await stand.blank("resistor from that grid to ground").fill("470k");
  await expect(stand.verdict).toContainText("Replace it.");
  await expect(stand.verdict).toContainText("5.3 uA");
  await expect(stand.question.getByLabel("series resistance (ESR)")).toHaveCount(0);
});

test("a first filter asks for the rectifier, the load and the series resistance", async ({ stand }) => {
  await stand.open("#part/capacitor?marking=20+mfd+150v&role=first_filter&kind=electrolytic&esr_ohm=40&load_ma=60&rectifier=35W4");
  await expect(stand.blank("rectifier tube before it")).toHaveValue("35W4");
  await expect(stand.verdict).toContainText("Replace it.");
  await stand.blank("series resistance (ESR)").fill("lots");
  await expect(stand.question.locator(".fault")).toContainText("series resistance (ESR)");
});

test("a resistor measured in the set is not passed by a reading that can only be low", async ({ stand }) => {
  await stand.open("#part/resistor?marking=500k+20%25&measured=560k");
  await expect(stand.verdict.locator("h2")).toHaveText("Leave it in.");
  await stand.answer.page().getByText("More about its place").click();
  await stand.choose("both ends connected");
  await expect(stand.verdict).not.toHaveClass(/yes/);
});

test("what is sold is saved, corrected, looked at, taken in, and shown as one's own", async ({ stand, page }) => {
  await stand.open("#book");
  const saved = page.waitForEvent("download");
  await page.getByRole("button", { name: "Capacitors sold" }).click();
  const file = await saved;
  expect(file.suggestedFilename()).toBe("capacitors.csv");
  const text = await (await file.createReadStream()).toArray().then((all) => Buffer.concat(all).toString());
  const [head, ...rows] = text.trim().split(/\r?\n/);
  expect(rows.length).toBeGreaterThan(3);
  // A kind that is not sold above 100 V any more.
  const columns = head.split(",");
  const kind = rows.find((row) => row.startsWith("film"));
  expect(kind, text).toBeTruthy();
  await page.locator("input[type=file]").setInputFiles({ name: "capacitors.csv", mimeType: "text/csv", buffer: Buffer.from(`${columns[0]},source\nfilm,looked up in my own drawer\n`) });
  await expect(page.getByRole("button", { name: "Take it in" })).toBeVisible();
  await page.getByRole("button", { name: "Take it in" }).click();
  await expect(page.locator(".own")).toContainText("film");
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(page.locator(".own li")).toHaveCount(0);
});

test("where the volts or the reading cannot be told, the blank that settles it is one tap away", async ({ stand }) => {
  await stand.open("#part/capacitor?marking=8+mfd");
  await expect(stand.verdict).toContainText("Cannot tell the volts.");
  await stand.answer.getByRole("button", { name: "highest volts there at switch-on" }).click();
  await expect(stand.blank("highest volts there at switch-on")).toBeFocused();
  await stand.open("#part/colours?colours=brown+brown+black+black+brown");
  await expect(stand.verdict).toContainText("measure it");
  await stand.answer.getByRole("button", { name: "Measured it?" }).click();
  await expect(stand.blank("it measures")).toBeFocused();
});

test("a figure with its own multiple shows no other unit, and the whole marking is in sight", async ({ stand }) => {
  await stand.open("#part/capacitor?marking=.02+mfd+400v&role=coupling&measured=25n&grid_v=2.5&grid_ohm=470k");
  const line = (label) => stand.blank(label).locator("..");
  await expect(line("it measures").locator(".unit")).toHaveCount(0);
  await expect(line("volts at the next grid, that tube out").locator(".unit")).toHaveText("V");
  for (const label of ["It is marked", "resistor from that grid to ground"]) {
    expect(await stand.blank(label).evaluate((one) => one.scrollWidth - one.clientWidth), label).toBeLessThanOrEqual(0);
  }
  // The core reads the multiple.
  await expect(stand.answer).toContainText("0.025 uF (25 nF)");
});
