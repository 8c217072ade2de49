// The whole page in one file, opened from a disk: no server, nothing fetched. No type with ZZ in its name exists.
import { expect, faults, test } from "./bench.js";
import { released, trappable } from "./host.js";

const FILE = released("stand-in.html").href;
const HEAD = "type,unit,function,base,heater_v,heater_a,source";
const csv = (row) => ({ name: "mine.csv", mimeType: "text/csv", buffer: Buffer.from(`${HEAD}\n${row}\n`) });
const ROW = "77ZZ7,1,pentode,octal,77,0.15,made up for a test";

test.beforeEach(({ stand, page }) => {
  /** Opens the file instead of the page that is served. */
  stand.open = async (hash = "") => {
    await page.goto(FILE + hash);
    await expect(page.getByText("Getting ready.")).toHaveCount(0);
  };
});

test("answers a swap and a rectifier, with an address each, and fetches nothing", async ({ stand, page }) => {
  const asked = [];
  page.on("request", (request) => /^(data|blob):/.test(request.url()) || asked.push(request.url().replace(/#.*/, "")));
  await stand.open();
  await expect(stand.answer.locator(".lead")).toContainText("what can go in instead");
  await stand.blank("The set wants").fill("12AX7");
  await stand.blank("I have").fill("12AU7");
  await stand.choose("in parallel");
  await expect(stand.verdict).toContainText("Yes, but the set will behave differently.");
  await expect(page).toHaveURL(/#tube\?set=12AX7&have=12AU7&heaters=parallel$/);
  await stand.open("#supply/rectifier?original=selenium&line_v=120&first_uf=40&load_ma=60&rated_v=150");
  await expect(stand.verdict).toContainText("1N4007");
  await page.goBack();
  await expect(stand.verdict).toContainText("12AU7");
  await page.getByRole("button", { name: "Menu" }).click();
  await page.getByRole("button", { name: "About" }).click();
  await expect(page.getByText("Works without a network: yes, everything is on this device.")).toBeVisible();
  expect(await faults(page)).toEqual([]);
  expect([...new Set(asked)]).toEqual([FILE]);
  expect(await page.locator("link[rel=manifest]").count()).toBe(0);
});

test("its policy lets nothing out and no other script in", async ({ stand, page }) => {
  await stand.open();
  const refused = await page.evaluate(async () => {
    const seen = [];
    document.addEventListener("securitypolicyviolation", ({ effectiveDirective }) => seen.push(effectiveDirective));
    await fetch("https://example.org/?what=typed").catch(() => {});
    new Image().src = "https://example.org/typed.png";
    const script = document.createElement("script");
    script.textContent = "window.ran = true";
    document.head.append(script);
    await new Promise((go) => setTimeout(go, 100));
    return { seen: seen.sort(), ran: window.ran };
  });
  expect(refused).toEqual({ seen: ["connect-src", "img-src", "script-src-elem"], ran: undefined });
  expect(stand.errors.splice(0).length).toBeGreaterThan(0);
});

test("takes a CSV file in and keeps it, and what was filled in, for the next time", async ({ stand, page }) => {
  await stand.open("#book");
  await page.locator("input[type=file]").setInputFiles(csv(ROW));
  await page.getByRole("button", { name: "Take it in" }).click();
  await expect(page.getByText("Yours: 1 type.")).toBeVisible();
  await expect(page.getByText("Your rows are kept on this device only.")).toBeVisible();
  await stand.bar("Tube").click();
  await stand.blank("The set wants").fill("77ZZ7");
  await expect(stand.verdict).toContainText("77 V, 0.15 A");
  await page.goto("about:blank");
  await stand.open();
  await expect(stand.blank("The set wants")).toHaveValue("77ZZ7");
  await expect(stand.verdict).toContainText("77 V, 0.15 A");
  const [saved] = await Promise.all([page.waitForEvent("download"), page.goto(`${FILE}#book`).then(() => page.getByRole("button", { name: "My tubes" }).click())]);
  const { readFileSync } = await import("node:fs");
  expect(readFileSync(await saved.path(), "utf8")).toContain("77ZZ7");
});

test("where storage is refused it says so and works, rows of one's own included", async ({ stand, page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, "localStorage", { get: () => { throw new DOMException("refused", "SecurityError"); } });
    Object.defineProperty(window, "indexedDB", { value: { open: () => { throw new DOMException("refused", "SecurityError"); } } });
  });
  await stand.open("#book");
  await expect(page.locator(".notice")).toContainText("Everything works, but this browser does not let the page keep things");
  await expect(page.getByText("Your rows are kept on this device only.")).toHaveCount(0);
  await page.locator("input[type=file]").setInputFiles(csv(ROW));
  await page.getByRole("button", { name: "Take it in" }).click();
  await expect(page.locator(".notice")).toContainText("it could not be kept for the next visit");
  await stand.bar("Tube").click();
  await stand.blank("The set wants").fill("77ZZ7");
  await expect(stand.verdict).toContainText("77 V, 0.15 A");
});

test("a calculation that stops is started anew, as often as need be, with the user's rows in it", async ({ stand, page }) => {
  await page.addInitScript(trappable);
  await stand.open("#book");
  await page.locator("input[type=file]").setInputFiles(csv(ROW));
  await page.getByRole("button", { name: "Take it in" }).click();
  await expect(page.getByText("Yours: 1 type.")).toBeVisible();
  await stand.bar("Tube").click();
  for (const type of ["77ZZ7", "EL84", "77ZZ7"]) {
    await page.evaluate(() => (window.traps = 1));
    await stand.blank("The set wants").fill(type);
    await expect(stand.verdict).toContainText(type === "EL84" ? "6.3 V, 0.76 A" : "77 V, 0.15 A");
    await expect(page.getByText("It was started anew")).toBeVisible();
    expect(stand.errors.splice(0).join()).toContain("memory access out of bounds");
    await page.locator(".notice").getByRole("button", { name: "Close" }).click();
  }
});
