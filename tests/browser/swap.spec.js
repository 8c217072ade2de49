// A swap as an expert would put it: the set in the question, every check with its why, and from each answer to the next. What is
// expected of a swap is what tests/tables/swaps.csv says of it, from memory of receiving-tube manuals.
import { expect, test } from "./bench.js";

const unfold = async (stand, group) => {
  await stand.question.getByText("What I know of the place").click();
  await stand.question.getByText(group).click();
};
const next = (stand, name) => stand.answer.getByRole("button", { name, exact: true }).click();

test("each reason says why it matters, folded; every check is a line, the deciding one first", async ({ stand }) => {
  await stand.open("#tube?set=12AU7&have=5814A&heaters=series");
  const reason = stand.answer.locator(".findings .finding").first();
  await expect(reason).toContainText("heater");
  await expect(reason.locator(".why p")).toBeHidden();
  await reason.getByText("Why does this matter?").click();
  await expect(reason.locator(".why p")).toContainText("0.15 A");
  await stand.answer.getByText("All checks").click();
  const checks = stand.answer.locator(".checks > li");
  await expect(checks).toHaveCount(13);
  await expect(checks.first().locator("summary")).toContainText("heater");
  await expect(checks.first().getByRole("img", { name: "must not be" })).toBeVisible();
  await expect(checks.first().locator("p").first()).toBeHidden();
  await checks.first().locator("summary").click();
  await expect(checks.first()).toContainText("Why does this matter?");
});

test("the count of each mark stands beside the folded checks, with its word for who cannot see it", async ({ stand }) => {
  await stand.open("#tube?set=12BA6&have=12AU6&heaters=series");
  const counts = stand.answer.locator(".counts");
  await expect(counts.getByRole("img", { name: "with care" })).toBeVisible();
  const sum = (await counts.innerText()).match(/\d+/g).reduce((all, one) => all + Number(one), 0);
  expect(sum).toBe(13);
});

test("how much work it is, and that the original is easily had", async ({ stand }) => {
  await stand.open("#tube?set=50B5&have=50C5&heaters=series");
  await expect(stand.answer.locator(".work")).toContainText("wires to move");
  await expect(stand.answer.locator(".advice")).toHaveCount(0);
  await stand.open("#tube?set=12SK7&have=12BA6&heaters=series");
  await expect(stand.answer.locator(".work")).toContainText("adapter");
  await expect(stand.answer.locator(".advice")).toContainText("12SK7 itself is common");
  await stand.open("#tube?set=12BA6&have=12AU6&heaters=series");
  await expect(stand.answer.locator(".work")).toHaveCount(0);
});

// Pin 1 is the shell of a metal 6V6 and free in a 6V6GT, from memory of receiving-tube manuals.
test("a pin that has to be looked at is one tap from its answer, either way", async ({ stand, page }) => {
  await stand.open("#tube?set=6V6GT&have=6V6&heaters=parallel");
  await expect(stand.verdict).toContainText("once you have looked at pin 1");
  await expect(stand.answer.locator(".sockets .warn").first()).toBeVisible();
  await next(stand, "I looked: nothing is wired to pin 1");
  await expect(stand.verdict.locator("h2")).toHaveText("Yes, as it stands.");
  await expect(page).toHaveURL(/ties=none/);
  await page.goBack();
  await next(stand, "Something is");
  await expect(stand.blank("which pins")).toBeFocused();
  await expect(stand.blank("which pins")).toHaveValue("1");
  await expect(stand.verdict.locator("h2")).toHaveText("Only after changes.");
});

test("the place is asked in groups, those that belong to the tube, and says how much is filled in", async ({ stand, page }) => {
  await stand.open("#tube?set=12BA6&have=12AU6&heaters=series&plate_v=90&agc=yes");
  const groups = stand.question.locator(".further .fold > summary");
  await expect(groups).toHaveText([/Pins/, /The heater string/, /Volts, current, resistors\s*1 given/, /AGC and tuning\s*1 given/]);
  await expect(stand.question.locator(".further > summary")).toContainText("2 given");
  await unfold(stand, "The heater string");
  await stand.blank("the other tubes, from line to chassis").fill("50C5 12BE6 12AT6");
  await stand.blank("how many of them on the chassis side").fill("1");
  await stand.blank("dropper or line cord").fill("0.22k");
  await stand.blank("line").fill("123");
  await expect(page).toHaveURL(/line_v=123&others=50C5\+12BE6\+12AT6.*chassis_side=1&dropper_ohm=0\.22k/);
  // The candidate stands where the original was; the sum of all is what the line has left of 123 V.
  const rungs = stand.answer.locator(".ladder button");
  await expect(rungs).toHaveText(["50C5", "12BE6", "12AU6", "12AT6"]);
  await expect(stand.answer.locator(".ladder .asked")).toContainText("12AU6");
  await stand.choose("in parallel");
  await expect(stand.question.getByText("The heater winding")).toBeVisible();
  await expect(stand.answer.locator(".ladder")).toHaveCount(0);
  await stand.open("#tube?set=5Y3GT&have=5V4G");
  await expect(groups).toHaveText([/Pins/, /What the rectifier feeds/]);
});

test("what a rectifier feeds is judged, and a figure out of range named by its blank", async ({ stand }) => {
  await stand.open("#tube?set=35W4&have=35Z5GT&heaters=series");
  await unfold(stand, "What the rectifier feeds");
  await stand.blank("the set draws").fill("60");
  await stand.blank("first filter").fill("-3");
  await expect(stand.question.locator(".fault")).toContainText("first filter: found -3; accepted: a number of microfarads");
  await stand.blank("first filter").fill("40");
  await stand.answer.getByText("All checks").click();
  await expect(stand.answer.locator(".checks").getByText("With 60 mA from 40 uF")).toBeAttached();
});

test("a blank of the place that cannot be read is one tap away", async ({ stand }) => {
  await stand.open("#tube?set=12BA6&have=12AU6&heaters=series&others=50C5&chassis_side=7");
  await expect(stand.verdict).toContainText("how many of them on the chassis side: found 7");
  await next(stand, "Go to the blank");
  await expect(stand.blank("how many of them on the chassis side")).toBeFocused();
});

test("a type of the string that is not in the book is replaced in its place alone", async ({ stand }) => {
  await stand.open("#tube?set=12BA6&have=12AU6&heaters=series&others=50C5+12BE+12AT6");
  await expect(stand.verdict).toContainText("Not in the book.");
  await stand.answer.locator(".near button").filter({ hasText: /^12BE6$/ }).click();
  await expect(stand.blank("the other tubes, from line to chassis")).toHaveValue("50C5 12BE6 12AT6");
});

// The book has no screen limit of 12BZ6; should it get one, another type serves here.
test("a figure the book lacks of the original is asked of the set", async ({ stand }) => {
  await stand.open("#tube?set=12BZ6&have=14A7&heaters=series");
  await expect(stand.verdict.locator("h2")).toHaveText("Cannot tell.");
  await next(stand, "In this set: highest screen volts");
  await expect(stand.blank("highest screen volts")).toBeFocused();
  await stand.blank("highest screen volts").fill("90");
  await expect(stand.answer.getByText("most screen volts of 12BZ6")).toHaveCount(0);
});

test("from a swap one tap leads to each next question, and Back returns", async ({ stand, page }) => {
  await stand.open("#tube?set=12BA6&have=12AU6&heaters=series&line_v=123&others=50C5+12BE6+12AT6&chassis_side=1&plate_v=90");
  await next(stand, "What is 12AU6?");
  await expect(page).toHaveURL(/#tube\?set=12AU6&heaters=series&line_v=123$/);
  await page.goBack();
  await next(stand, "The other way round");
  // The figures of this place are not those of the other one.
  await expect(page).toHaveURL(/#tube\?set=12AU6&have=12BA6&heaters=series&line_v=123$/);
  await page.goBack();
  await next(stand, "Its heater string");
  await expect(stand.blank("Does this string work:")).toHaveValue("50C5 12BE6 12AU6 12AT6");
  await stand.answer.locator(".ladder button").first().click();
  await expect(stand.blank("The set wants")).toHaveValue("50C5");
  await page.goBack();
  await page.goBack();
  await next(stand, "Its row in the book");
  await expect(page.getByRole("heading", { name: "12AU6 in my book" })).toBeVisible();
  await page.goBack();
  await next(stand, "What else is 12AU6 good for?");
  await expect(page).toHaveURL(/#tube\/serves\?have=12AU6&heaters=series$/);
  await page.goBack();
  await next(stand, "All that goes in for 12BA6");
  await expect(stand.answer.getByRole("heading", { name: "What can go in" })).toBeVisible();
});

test("good for what: the wanted types in any spelling, each one tap from its judgement", async ({ stand, page }) => {
  await stand.open();
  await stand.question.getByRole("button", { name: "Good for?" }).click();
  await expect(stand.verdict).toHaveText("Type the tube you have in hand.");
  await stand.blank("I have").fill("12au6");
  await stand.blank("could it do for").fill("12BA6, 6AU6; 2x 12SK7 GT 12QQ9");
  await stand.choose("in series");
  await expect(stand.verdict).toContainText("12AU6 plugs in for 12BA6");
  await expect(stand.answer.locator(".candidate b")).toHaveText(["12BA6", "12SK7GT", "6AU6"]);
  await expect(stand.answer.locator(".near button")).toHaveText(["12QQ9"]);
  await page.reload();
  await expect(stand.blank("could it do for")).toHaveValue("12BA6, 6AU6; 2x 12SK7 GT 12QQ9");
  await stand.answer.getByRole("button", { name: /^12BA6\b/ }).click();
  await expect(stand.blank("The set wants")).toHaveValue("12BA6");
  await expect(stand.blank("I have")).toHaveValue("12AU6");
  await expect(stand.question.getByRole("radio", { name: "in series" })).toBeChecked();
  await page.goBack();
  await expect(stand.blank("could it do for")).toHaveValue("12BA6, 6AU6; 2x 12SK7 GT 12QQ9");
});

test("good for what, without a list: the whole book; A for B is not B for A", async ({ stand }) => {
  await stand.open("#tube/serves?have=6SN7GTB&heaters=parallel");
  await expect(stand.answer.getByRole("button", { name: /^6SN7GT\b/ }).first()).toBeVisible();
  await stand.open("#tube/serves?have=6SN7GT&wanted=6SN7GTB&heaters=parallel");
  await expect(stand.verdict.locator("h2")).toHaveText("Nothing it can do here.");
  await stand.open("#tube/serves?have=12QQ9");
  await expect(stand.verdict).toContainText("Not in the book.");
  await expect(stand.answer.getByRole("button", { name: "What could 12QQ9 be?" })).toBeVisible();
});

test("a whole set from a taped note: markings, counts, one verdict, and on to string and stand-ins", async ({ stand, page }) => {
  await stand.open();
  await stand.question.getByRole("button", { name: "A whole set" }).click();
  await stand.blank("Can I still get these tubes?").fill("TUBES 12SA7, 2x 12SK7, 12SQ7 / 50L6-GT + 35Z5  117 V 30 W 99ZZ9");
  await expect(page).toHaveURL(/#tube\/lineup\?note=TUBES/);
  // One of them is not in the book.
  await expect(stand.verdict.locator("h2")).toHaveText("Cannot tell for all.");
  await expect(stand.answer).toContainText("taken as one string");
  const tubes = stand.answer.locator(".set > li");
  await expect(tubes.locator("h3")).toHaveText([/12SA7/, /12SK7\s*× 2/, /12SQ7/, /50L6GT/, /35Z5GT/]);
  await expect(tubes.first()).toContainText("12SA7 is common: it can be had.");
  await expect(tubes.first()).toContainText("also marked VT-161");
  await expect(stand.answer.locator(".near button")).toHaveText(["99ZZ9"]);
  await next(stand, "Do their heaters work as one string?");
  await expect(stand.blank("Does this string work:")).toHaveValue("12SA7 12SK7 12SK7 12SQ7 50L6GT 35Z5GT");
  await page.goBack();
  await tubes.first().locator("summary").first().click();
  await tubes.first().getByRole("button", { name: "All that goes in for 12SA7" }).click();
  await expect(page).toHaveURL(/#tube\?set=12SA7&heaters=series$/);
});

// 1L6 is scarce, its neighbours are not: common practice among restorers of portables, no source.
test("a hard tube has its stand-ins in sight, and a text without a type says what is wanted", async ({ stand, page }) => {
  await stand.open("#tube/lineup?note=1L6+1U4");
  const hard = stand.answer.locator(".set > li").first();
  await expect(hard.getByRole("img", { name: /with care|^no$/ }).first()).toBeVisible();
  await expect(hard.locator(".candidate").first()).toBeVisible();
  await hard.locator(".candidate").first().click();
  await expect(stand.blank("The set wants")).toHaveValue("1L6");
  await page.goBack();
  await stand.blank("Can I still get these tubes?").fill("tubes missing");
  await expect(stand.verdict.locator("h2")).toHaveText("Not enough to tell yet.");
  await expect(stand.question.locator(".fault")).toHaveText("Can I still get these tubes: this takes at least one type that is in the book.");
});

test("between different bases arrows lead from every old pin to its new one, side by side or one below the other", async ({ stand, page }) => {
  await stand.open("#tube?set=12SK7&have=12BA6&heaters=series");
  const seen = stand.answer.locator(".pair-of svg").filter({ visible: true });
  await expect(seen).toHaveCount(1);
  // Two heater pins and five electrodes.
  await expect(seen.locator(".move")).toHaveCount(7);
  // Each begins beside a pin of the old socket and ends beside one of the new, in the order of the table of moves.
  const table = await stand.answer.locator(".changes table tbody tr").evaluateAll((rows) =>
    rows.flatMap((row) => {
      const [from, to] = [...row.querySelectorAll("td")].map((cell) => cell.textContent.match(/\bcap\b|\d+/g));
      return from.map((pin, at) => [pin, to[at]]);
    }),
  );
  const drawn = await seen.evaluate((svg) => {
    const [old, next] = [...svg.querySelectorAll(":scope > g")].slice(-2);
    const shift = (group) => group.getAttribute("transform").match(/-?[\d.]+/g).map(Number);
    const nearest = (group, x, y) => {
      const [dx, dy] = shift(group);
      const pins = [...group.querySelectorAll("g.pin")].map((pin) => {
        const text = pin.querySelector("text");
        return [text.textContent, Math.hypot(Number(text.getAttribute("x")) + dx - x, Number(text.getAttribute("y")) - 6 + dy - y)];
      });
      const [name, far] = pins.sort((one, other) => one[1] - other[1])[0];
      return far < 22 ? name : `${name} at ${far}`;
    };
    return [...svg.querySelectorAll(".move")].map((arrow) => {
      const [x, y, endX, endY] = arrow.getAttribute("d").match(/-?[\d.]+/g).map(Number);
      return [nearest(old, x, y), nearest(next, endX, endY)];
    });
  });
  expect(drawn).toEqual(table);
  expect(table.length).toBe(7);
  const box = await seen.boundingBox();
  const narrow = page.viewportSize().width < 500;
  expect(box.height > box.width, "one below the other on a phone").toBe(narrow);
  await expect(seen).toHaveAttribute("aria-label", /12SK7 from below.*pin 8: plate, to 5.*12BA6 from below.*pin 5: plate, from 8/);
});
