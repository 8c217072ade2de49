// <stand-in> as a part of pages of somebody else: strict ones, hostile ones, with two of it. No type with ZZ in its name exists.
import { expect, faults, test } from "./bench.js";
import { STRICT, embed, trappable } from "./host.js";

const HEAD = "type,unit,function,base,heater_v,heater_a,source";
const ROW = "77ZZ7,1,pentode,octal,77,0.15,made up for a test";
const TWO = `<main><h1>Radio club</h1><p><button id="theirs">Theirs</button></p><div id="before">before</div>
  <stand-in id="one" label="First"></stand-in><div id="after">after</div><stand-in id="two" label="Second"></stand-in></main>`;
const verdict = (element) => element.locator(".verdict");
const blank = (element, label) => element.getByLabel(label, { exact: true });
const ready = async (page, count = 1) => {
  await expect(page.locator("stand-in .frame")).toHaveCount(count);
  await expect(page.getByText("Getting ready.")).toHaveCount(0);
};
/** Writes down what the page around hears, from the very start. */
const listening = (page) =>
  page.addInitScript(() => {
    window.heard = [];
    for (const name of ["ready", "answer", "error"]) {
      document.addEventListener(`stand-in-${name}`, (event) =>
        window.heard.push({ name, detail: event.detail, id: event.target.id, bubbles: event.bubbles, composed: event.composed }));
    }
  });
const heard = (page, name) => page.evaluate((name) => window.heard.filter((one) => one.name === name), name);
const drop = (page, id, text) =>
  page.evaluate(({ id, text }) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([text], "dropped.csv"));
    const event = new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true });
    document.getElementById(id).dispatchEvent(event);
    return event.defaultPrevented;
  }, { id, text });
const stored = (page) => page.evaluate(async () => ({ local: Object.keys(localStorage).sort(), databases: (await indexedDB.databases()).map(({ name }) => name) }));

/** Everything drawn in an element: where it stands in it and how its text looks. */
const drawn = (page) =>
  page.evaluate(() => {
    const { shadowRoot } = document.querySelector("stand-in");
    const frame = shadowRoot.querySelector(".frame").getBoundingClientRect();
    return [...shadowRoot.querySelectorAll("*")].map((one) => {
      const { x, y, width, height } = one.getBoundingClientRect();
      const { fontSize, fontFamily, color, backgroundColor, textTransform, letterSpacing, direction, textAlign, cursor } = getComputedStyle(one);
      const place = [x - frame.x, y - frame.y, width, height].map((value) => Math.round(value * 4) / 4);
      return `${one.tagName}.${one.getAttribute("class")} ${[...place, fontSize, fontFamily, color, backgroundColor, textTransform, letterSpacing, direction, textAlign, cursor].join(" ")}`;
    });
  });

const HOSTILE = `
  * { all: unset; }
  html { font-size: 62.5%; --ink: red; --paper: lime; --ground: red; --tone: red; --rem: 3px; --tall: 9999px; --sans: fantasy; --act: red; }
  body { display: block; direction: rtl; font: italic 900 60px/3 fantasy; letter-spacing: 1em; word-spacing: 2em; text-transform: uppercase; text-align: right; text-indent: 5em; white-space: pre; color: red; cursor: wait; visibility: visible; }
  h1, h2, p, button, input, label, section, form, nav, main, .verdict, .bar, .question, #set { display: none !important; font-size: 90px !important; color: red !important; position: fixed !important; z-index: 99999 !important; }
  stand-in { --ink: red; --paper: lime; --quiet: red; color: red; font-size: 80px; line-height: 5; list-style: square; quotes: none; }
`;

for (const [what, hash] of [["nothing asked", {}], ["an answer", { place: "tube?set=50B5&have=50C5&heaters=series" }], ["drawings", { place: "supply/heaters?tubes=50C5+12BE6+12BA6+12AT6&line_v=123&dropper_ohm=220" }]]) {
  test(`the styles of a hostile page change nothing in it: ${what}`, async ({ stand, page }) => {
    const body = `<stand-in storage="off" ${hash.place ? `place="${hash.place.replaceAll("&", "&amp;")}"` : ""}></stand-in>`;
    // As wide as the window in both.
    await embed(page, stand.site, { body, css: "body { margin: 0; }" });
    await ready(page);
    const before = await drawn(page);
    expect(before.length).toBeGreaterThan(40);
    await embed(page, stand.site, { body, css: HOSTILE });
    await ready(page);
    expect(await drawn(page)).toEqual(before);
  });
}

test("a page with a strict policy, two of it, and nothing of the page is touched", async ({ stand, page }) => {
  await listening(page);
  const asked = [];
  page.on("request", (request) => asked.push(request.url().replace(stand.site, "")));
  await embed(page, stand.site, { body: TWO, hash: "#tube?set=EL84" });
  await ready(page, 2);
  const [one, two] = [page.locator("#one"), page.locator("#two")];
  // The fragment is theirs: not read, not written, and no step in their history.
  await expect(blank(one, "The set wants")).toHaveValue("");
  const steps = await page.evaluate(() => history.length);
  await blank(one, "The set wants").fill("12SK7");
  await expect(verdict(one)).toContainText("pentode, remote cut-off");
  await two.getByRole("button", { name: "Supply", exact: true }).click();
  await expect(two.locator("[data-field=first_uf]")).toBeVisible();
  await expect(page).toHaveURL(`${stand.site}host.html#tube?set=EL84`);
  expect(await page.evaluate(() => history.length)).toBe(steps);
  expect(await page.evaluate(() => document.activeElement.id)).not.toBe("one");
  expect(asked.filter((path) => !/^(host\.html|host\.css|widget\.js|favicon\.ico)/.test(path))).toEqual([]);
  expect(await faults(page)).toEqual([]);
  // Nothing of it lies over what stands around it.
  for (const theirs of ["theirs", "before", "after"]) {
    const above = await page.locator(`#${theirs}`).evaluate((one) => {
      one.scrollIntoView({ block: "center" });
      const { x, y, width, height } = one.getBoundingClientRect();
      return [0.02, 0.1, 0.5].flatMap((part) => [0.1, 0.5, 0.9].map((down) => document.elementFromPoint(x + part * width, y + down * height)?.id));
    });
    expect(new Set(above)).toEqual(new Set([theirs]));
  }
  expect((await heard(page, "ready")).map(({ id }) => id).sort()).toEqual(["one", "two"]);
  // Told apart by a screen reader; the labels may change.
  await expect(page.getByRole("form", { name: "First: Question" })).toBeVisible();
  await page.evaluate(() => document.querySelector("#two").setAttribute("label", "Last"));
  await expect(page.getByRole("navigation", { name: "Last: Places" })).toBeVisible();
  await expect(page.getByRole("main")).toHaveCount(1);
  await expect(page.getByRole("banner")).toHaveCount(0);
});

test("the files of www embed as well, under the same policy with connect-src 'self'", async ({ stand, page }) => {
  await page.addInitScript(trappable);
  await embed(page, stand.site, { body: TWO, script: "stand-in.js", policy: `${STRICT}; connect-src 'self'` });
  await ready(page, 2);
  const [one, two] = [page.locator("#one"), page.locator("#two")];
  await blank(one, "The set wants").fill("12SK7");
  await expect(verdict(one)).toContainText("pentode, remote cut-off");
  await page.evaluate(() => (window.traps = 1));
  await blank(two, "The set wants").fill("EL84");
  await expect(verdict(two)).toContainText("EL84");
  await expect(two.getByText("It was started anew")).toBeVisible();
  await expect(one.getByText("It was started anew")).toHaveCount(0);
  expect(stand.errors.join()).toContain("memory access out of bounds");
  stand.errors.length = 0;
});

test("two of it do not disturb each other: questions, Esc, menus, drops, printing, traps", async ({ stand, page }) => {
  await page.addInitScript(trappable);
  await listening(page);
  await embed(page, stand.site, { body: TWO });
  await ready(page, 2);
  const [one, two] = [page.locator("#one"), page.locator("#two")];
  await blank(one, "The set wants").fill("50B5");
  await blank(one, "I have").fill("50C5");
  await blank(two, "The set wants").fill("EL84");
  await expect(verdict(two)).toContainText("EL84");
  await expect(verdict(one)).toContainText("50C5");
  // Esc empties the field it is pressed in.
  await blank(one, "I have").press("Escape");
  await expect(blank(one, "I have")).toHaveValue("");
  await expect(blank(two, "The set wants")).toHaveValue("EL84");
  // One menu at a time, for a click elsewhere closes it.
  await one.getByRole("button", { name: "Menu" }).click();
  await expect(one.locator("[data-menu]")).toBeVisible();
  await expect(two.locator("[data-menu]")).toHaveCount(0);
  await two.getByRole("button", { name: "Menu" }).click();
  await expect(one.locator("[data-menu]")).toHaveCount(0);
  await two.getByRole("button", { name: "Close" }).click();
  // A choice of one stays with it.
  const chosen = await one.getByRole("radio", { name: "in series" }).isChecked();
  await two.getByRole("radio", { name: "in series" }).check();
  expect(await one.getByRole("radio", { name: "in series" }).isChecked()).toBe(chosen);
  // A trap in one: the other is as it was, and both answer.
  await page.evaluate(() => (window.traps = 1));
  await blank(one, "The set wants").fill("12SK7");
  await expect(verdict(one)).toContainText("remote cut-off");
  await expect(one.getByText("It was started anew")).toBeVisible();
  await expect(two.getByText("It was started anew")).toHaveCount(0);
  await expect(verdict(two)).toContainText("EL84");
  expect(stand.errors.splice(0).join()).toContain("memory access out of bounds");
  // Traps again and again: that question has no answer, and the next has.
  await page.evaluate(() => (window.traps = 2));
  await blank(one, "The set wants").fill("12SK7GT");
  await expect(verdict(one)).toContainText("Cannot answer this one.");
  expect((await heard(page, "error")).map(({ id, detail }) => [id, detail.what])).toEqual([["one", "trap"]]);
  await blank(one, "The set wants").fill("6SK7");
  await expect(verdict(one)).toContainText("6SK7");
  stand.errors.length = 0;
  // What is dropped on one goes to it, what is dropped beside is the page's.
  expect(await drop(page, "theirs", `${HEAD}\n${ROW}\n`)).toBe(false);
  expect(await drop(page, "two", `${HEAD}\n${ROW}\n`)).toBe(true);
  await expect(two.locator("article.report")).toContainText("1 row read: 1 new");
  await expect(verdict(one)).toContainText("6SK7");
  // The book is one: what is taken in at one is in the other.
  await blank(one, "The set wants").fill("77ZZ7");
  await expect(verdict(one)).toContainText("Not found.");
  await two.getByRole("button", { name: "Take it in" }).click();
  await expect(verdict(one)).toContainText("77 V, 0.15 A");
  // Printing unfolds both and folds them again.
  await page.evaluate(() => document.querySelector("#one").open("tube?set=50B5&have=50C5&heaters=series"));
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  await expect(one.locator("details:not([open])")).toHaveCount(0);
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  await expect(one.locator("details[open]")).toHaveCount(0);
});

test("what is filled in is kept by the id of each, and nothing with storage off", async ({ stand, page }) => {
  await embed(page, stand.site, { body: `${TWO}<stand-in id="three" storage="off"></stand-in>` });
  await ready(page, 3);
  const [one, two, three] = ["#one", "#two", "#three"].map((id) => page.locator(id));
  await blank(one, "The set wants").fill("12SK7");
  await blank(two, "The set wants").fill("EL84");
  await blank(three, "The set wants").fill("6V6GT");
  await expect(verdict(three)).toContainText("6V6GT");
  await page.reload();
  await ready(page, 3);
  await expect(blank(one, "The set wants")).toHaveValue("12SK7");
  await expect(blank(two, "The set wants")).toHaveValue("EL84");
  await expect(blank(three, "The set wants")).toHaveValue("");
  expect((await stored(page)).local).toEqual(["stand-in#one", "stand-in#two"]);
});

test("storage off keeps no row, says so, and is not reached by the others", async ({ stand, page }) => {
  await embed(page, stand.site, { body: `<stand-in id="one" storage="off" place="book"></stand-in>` });
  await ready(page);
  const one = page.locator("#one");
  await expect(one.getByText("Nothing is kept here")).toBeVisible();
  await expect(one.getByText("kept on this device only")).toHaveCount(0);
  await drop(page, "one", `${HEAD}\n${ROW}\n`);
  await one.getByRole("button", { name: "Take it in" }).click();
  await expect(one.getByText("Yours: 1 type.")).toBeVisible();
  expect(await stored(page)).toEqual({ local: [], databases: [] });
  await page.reload();
  await ready(page);
  await expect(one.getByText("None so far.")).toBeVisible();
});

test("a browser that refuses storage is said to, in words and as an event, and it works", async ({ stand, page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, "localStorage", { get: () => { throw new DOMException("refused", "SecurityError"); } });
    Object.defineProperty(window, "indexedDB", { value: { open: () => { throw new DOMException("refused", "SecurityError"); } } });
  });
  await listening(page);
  await embed(page, stand.site, { body: `<stand-in id="one" place="book"></stand-in>` });
  await ready(page);
  await expect(page.locator(".notice")).toContainText("does not let the page keep things");
  await page.locator(".notice").getByRole("button", { name: "Close" }).click();
  await drop(page, "one", `${HEAD}\n${ROW}\n`);
  await page.getByRole("button", { name: "Take it in" }).click();
  await expect(page.getByText("Yours: 1 type.")).toBeVisible();
  await expect.poll(async () => (await heard(page, "error")).map(({ detail }) => detail)).toEqual([{ what: "storage", says: "refused" }]);
});

test("events tell what was asked and answered, and where", async ({ stand, page }) => {
  await listening(page);
  await embed(page, stand.site, { body: `<stand-in id="one"></stand-in>` });
  await ready(page);
  expect(await heard(page, "ready")).toEqual([{ name: "ready", detail: null, id: "one", bubbles: true, composed: true }]);
  expect(await heard(page, "answer")).toEqual([]);
  await page.evaluate(() => document.querySelector("#one").open("tube", { set: "12AX7", have: "12AU7", heaters: "parallel" }));
  await expect.poll(async () => (await heard(page, "answer")).length).toBeGreaterThan(0);
  const [{ detail, id, bubbles, composed }] = await heard(page, "answer");
  expect({ id, bubbles, composed }).toEqual({ id: "one", bubbles: true, composed: true });
  expect(detail.question).toEqual({ ask: "swap", original: "12AX7", candidate: "12AU7", socket: { supply: { kind: "parallel" } } });
  expect(detail.answer.answer).toBe("swap");
  expect(detail.place).toBe("tube?set=12AX7&have=12AU7&heaters=parallel");
  // What the event says is what is shown, and the place leads back to it.
  await expect(verdict(page.locator("#one"))).toContainText("Yes, but the set will behave differently");
  await page.evaluate((place) => { const other = document.createElement("stand-in"); other.id = "other"; other.setAttribute("place", place); document.body.append(other); }, detail.place);
  await expect(verdict(page.locator("#other"))).toContainText("Yes, but the set will behave differently");
});

test("inside closed shadow roots of somebody else it works and is heard", async ({ stand, page }) => {
  await listening(page);
  await embed(page, stand.site, { body: `<div id="theirs"></div>` });
  await page.evaluate(() => {
    const root = document.querySelector("#theirs").attachShadow({ mode: "closed" });
    window.inside = document.createElement("stand-in");
    root.append(window.inside);
  });
  await expect.poll(async () => (await heard(page, "ready")).map(({ id }) => id)).toEqual(["theirs"]);
  const within = (selector, press = false) => page.evaluate(({ selector, press }) => {
    const one = window.inside.shadowRoot.querySelector(selector);
    if (press) one.click();
    return one !== null;
  }, { selector, press });
  await within("[data-menu-button]", true);
  await within("[data-menu] label:last-child input", true);
  expect(await within("[data-menu]"), "still open after a tap in it").toBe(true);
  expect(await page.evaluate(() => window.inside.getAttribute("theme"))).toBe("dark");
  await page.evaluate(() => document.body.click());
  expect(await within("[data-menu]"), "closed after a tap beside it").toBe(false);
  await page.evaluate(() => window.inside.open("tube?set=12SK7"));
  await expect.poll(async () => (await heard(page, "answer")).map(({ id, detail }) => `${id} ${detail.question.ask}`)).toContain("theirs tube");
});

test("a core that does not start is an event too, and a question then is refused", async ({ stand, page }) => {
  await page.addInitScript(() => { WebAssembly.compileStreaming = async () => { throw new WebAssembly.CompileError("made to fail"); }; });
  await listening(page);
  await embed(page, stand.site, { body: `<stand-in id="one"></stand-in>` });
  await expect(verdict(page.locator("#one"))).toContainText("The calculating part did not load.");
  expect((await heard(page, "error")).map(({ detail }) => detail)).toEqual([{ what: "core", says: "made to fail" }]);
  expect(await heard(page, "ready")).toEqual([]);
  expect(await page.evaluate(() => document.querySelector("#one").ask({ ask: "tube", type: "12SK7" }).catch((reason) => reason.message))).toBe("made to fail");
});

test("a host asks the core without touching what is shown", async ({ stand, page }) => {
  await page.addInitScript(trappable);
  await listening(page);
  await embed(page, stand.site, { body: `<stand-in id="one"></stand-in>` });
  const ask = (question) => page.evaluate((question) => document.querySelector("#one").ask(question), question);
  // Before the core has started too: it waits.
  await page.evaluate(() => customElements.whenDefined("stand-in"));
  expect((await ask({ ask: "tube", type: "12SK7" })).tube.type).toBe("12SK7");
  expect(await ask({ ask: "swap", original: "12SK7", candidate: "" })).toMatchObject({ answer: "error", field: "candidate" });
  await page.evaluate(() => (window.traps = 1));
  expect((await ask({ ask: "tube", type: "6V6GT" })).tube.type).toBe("6V6GT");
  await page.evaluate(() => (window.traps = 2));
  await expect(ask({ ask: "tube", type: "EL84" })).rejects.toThrow(/memory access out of bounds/);
  expect((await ask({ ask: "tube", type: "6V6GT" })).tube.type).toBe("6V6GT");
  await expect(verdict(page.locator("#one"))).toHaveText("Type what the set wants.");
  expect(await heard(page, "answer")).toEqual([]);
  expect(await page.evaluate(() => document.createElement("stand-in").ask({ ask: "tube", type: "EL84" }).catch(({ message }) => message))).toContain("put the <stand-in> into the page first");
});

test("a host opens questions; a place that is none is told with those there are", async ({ stand, page }) => {
  await embed(page, stand.site, { body: `<stand-in id="one" place="part/resistor?marking=500k+20%25&amp;measured=560k"></stand-in>` });
  await ready(page);
  const one = page.locator("#one");
  const open = (...given) => page.evaluate((given) => { try { document.querySelector("#one").open(...given); return ""; } catch (reason) { return `${reason.name}: ${reason.message}`; } }, given);
  await expect(verdict(one)).toContainText("Leave it in.");
  expect(await open("supply/heaters", { tubes: "50C5 12BE6", line_v: "123" })).toBe("");
  await expect(one.locator("[data-field=line_v]")).toHaveValue("123");
  expect(await open("part/resistor")).toBe("");
  await expect(one.locator("[data-field=marking]"), "as it was left").toHaveValue("500k 20%");
  expect(await open("#about")).toBe("");
  await expect(one.getByText("Works without a network:")).toBeVisible();
  for (const wrong of ["", "kitchen", "tube/elsewhere"]) expect(await open(wrong)).toMatch(/^RangeError: there is no place ".*"; accepted: tube, tube\/serves, .*about$/);
  await expect(one.getByText("Works without a network:")).toBeVisible();
  // The attribute leads there too, at any time; one that is none leads nowhere.
  const place = (text) => page.evaluate((text) => document.querySelector("#one").setAttribute("place", text), text);
  await place("tube?set=12SK7");
  await expect(verdict(one)).toContainText("remote cut-off");
  await place("kitchen");
  await expect(verdict(one)).toContainText("remote cut-off");
});

test("the theme follows its attribute, and the menu writes it there", async ({ stand, page }) => {
  const ground = () => page.locator("#one .frame").evaluate((one) => getComputedStyle(one).backgroundColor);
  const [light, dark] = ["rgb(245, 240, 227)", "rgb(21, 19, 15)"];
  await page.emulateMedia({ colorScheme: "light" });
  await embed(page, stand.site, { body: `<stand-in id="one" theme="dark"></stand-in>` });
  await ready(page);
  expect(await ground()).toBe(dark);
  await page.evaluate(() => document.querySelector("#one").setAttribute("theme", "light"));
  expect(await ground()).toBe(light);
  await page.evaluate(() => document.querySelector("#one").removeAttribute("theme"));
  expect(await ground()).toBe(light);
  await page.emulateMedia({ colorScheme: "dark" });
  expect(await ground()).toBe(dark);
  await page.getByRole("button", { name: "Menu" }).click();
  await expect(page.getByRole("radio", { name: "dark", exact: true })).not.toBeChecked();
  await page.getByRole("radio", { name: "light", exact: true }).check();
  expect(await ground()).toBe(light);
  await expect(page.locator("#one")).toHaveAttribute("theme", "light");
});

test("one of them may have the address, when it is told so, and gives it back", async ({ stand, page }) => {
  const said = [];
  page.on("console", (message) => message.type() === "warning" && said.push(message.text()));
  const body = `<stand-in id="one" address="on"></stand-in><stand-in id="two" address="on"></stand-in>`;
  await embed(page, stand.site, { body, hash: "#tube?set=EL84" });
  await ready(page, 2);
  const [one, two] = [page.locator("#one"), page.locator("#two")];
  await expect(blank(one, "The set wants")).toHaveValue("EL84");
  await expect(blank(two, "The set wants")).toHaveValue("");
  expect(said.join()).toContain("has the address of this page already");
  await blank(two, "The set wants").fill("12SK7");
  await expect(verdict(two)).toContainText("12SK7");
  await expect(page).toHaveURL(/#tube\?set=EL84$/);
  await one.getByRole("button", { name: "Part", exact: true }).click();
  await expect(page).toHaveURL(/#part\/capacitor$/);
  await page.goBack();
  await expect(verdict(one)).toContainText("EL84");
  await expect(verdict(two)).toContainText("12SK7");
  // The first gone, another that comes may have it.
  await page.evaluate(() => { document.querySelector("#one").remove(); document.body.append(document.querySelector("#two")); });
  await expect(page).toHaveURL(/#tube\?set=12SK7$/);
  await two.getByRole("button", { name: "Supply", exact: true }).click();
  await page.goBack();
  await expect(verdict(two)).toContainText("12SK7");
});

test("taken out and put in again it is as it was, hears once, and has the book as it is now", async ({ stand, page }) => {
  await listening(page);
  await embed(page, stand.site, { body: TWO });
  await ready(page, 2);
  const [one, two] = [page.locator("#one"), page.locator("#two")];
  await blank(one, "The set wants").fill("77ZZ7");
  await expect(verdict(one)).toContainText("Not found.");
  await page.evaluate(() => { window.out = document.querySelector("#one"); window.out.remove(); });
  // What was typed last when it was taken out is answered all the same.
  await page.evaluate(() => {
    const input = window.out.shadowRoot.querySelector("[data-field=set]");
    document.body.append(window.out);
    input.value = "12SK7";
    input.dispatchEvent(new Event("input", { bubbles: true }));
    window.out.remove();
    setTimeout(() => document.body.append(window.out), 400);
  });
  await expect(verdict(one)).toContainText("remote cut-off");
  await blank(one, "The set wants").fill("77ZZ7");
  await expect(verdict(one)).toContainText("Not found.");
  await page.evaluate(() => window.out.remove());
  // Meanwhile the other takes a row in.
  await drop(page, "two", `${HEAD}\n${ROW}\n`);
  await two.getByRole("button", { name: "Take it in" }).click();
  await expect(two.getByText("Yours: 1 type.")).toBeVisible();
  // In and out and in, also within one turn.
  await page.evaluate(() => { document.body.prepend(window.out); window.out.remove(); document.querySelector("#before").append(window.out); });
  await expect(blank(one, "The set wants")).toHaveValue("77ZZ7");
  await expect(verdict(one)).toContainText("77 V, 0.15 A");
  expect((await heard(page, "ready")).map(({ id }) => id).sort()).toEqual(["one", "two"]);
  // Listens, and once only.
  await drop(page, "one", `${HEAD}\n${ROW.replaceAll("77", "78")}\n`);
  await expect(one.locator("article.report")).toHaveCount(1);
  await one.getByRole("button", { name: "Take it in" }).click();
  await expect(one.getByText("Yours: 2 types.")).toBeVisible();
  await expect(one.locator("article.report")).toHaveCount(0);
  await expect(two.getByText("Yours: 2 types.")).toBeVisible();
  await one.getByRole("button", { name: "Menu" }).click();
  await page.locator("#after").click();
  await expect(one.locator("[data-menu]")).toHaveCount(0);
  // And the other way round.
  await two.getByRole("button", { name: "Remove 77ZZ7" }).click();
  await expect(one.getByText("Yours: 1 type.")).toBeVisible();
});

test("properties and parts style it", async ({ stand, page }) => {
  const css = `
    stand-in { --stand-in-paper: rgb(1, 2, 3); --stand-in-raised: rgb(4, 5, 6); --stand-in-ink: rgb(250, 251, 252); --stand-in-quiet: rgb(240, 241, 242); --stand-in-rule: rgb(7, 8, 9);
      --stand-in-strong: rgb(10, 11, 12); --stand-in-action: rgb(13, 14, 15); --stand-in-action-ink: rgb(16, 17, 18); --stand-in-action-ground: rgb(19, 20, 21); --stand-in-bar: rgb(22, 23, 24);
      --stand-in-bar-ink: rgb(25, 26, 27); --stand-in-font: "Theirs"; --stand-in-heading-font: "Their headings"; --stand-in-text-size: 20px; --stand-in-min-height: 1234px; }
    ${["header", "menu", "question", "answer", "verdict", "notice", "bar"].map((part, at) => `stand-in::part(${part}) { outline: ${at + 1}px solid rgb(1, 1, ${at + 1}); }`).join("\n")}
    stand-in::part(verdict-yes) { border-radius: 7px; }
    stand-in::part(verdict-no) { border-radius: 8px; }`;
  await embed(page, stand.site, { body: `<stand-in place="tube?set=12AX7&amp;have=12AU7&amp;heaters=parallel"></stand-in>`, css });
  await ready(page);
  const look = (selector, ...names) => page.locator(selector).first().evaluate((one, names) => names.map((name) => getComputedStyle(one)[name]), names);
  expect(await look(".frame", "backgroundColor", "color", "fontFamily", "fontSize", "minHeight")).toEqual(["rgb(1, 2, 3)", "rgb(250, 251, 252)", "Theirs", "21.25px", "1234px"]);
  expect(await look(".blank .line", "backgroundColor")).toEqual(["rgb(4, 5, 6)"]);
  expect(await look(".question label", "fontFamily", "fontSize")).toEqual(['"Their headings"', "22.5px"]);
  expect(await look(".bar", "backgroundColor", "color")).toEqual(["rgb(22, 23, 24)", "rgb(25, 26, 27)"]);
  expect(await look("button.plain", "color")).toEqual(["rgb(13, 14, 15)"]);
  expect(await look(".skip", "color")).toEqual(["rgb(16, 17, 18)"]);
  expect(await look("h3", "borderBottomColor")).toEqual(["rgb(10, 11, 12)"]);
  await page.getByRole("button", { name: "Menu" }).click();
  await page.evaluate(() => document.querySelector("stand-in").keepsWorking());
  expect(await look(".menu > button", "borderBottomColor")).toEqual(["rgb(7, 8, 9)"]);
  for (const [at, selector] of ["header", ".menu", "form.question", "section.answer", ".verdict", ".notice", "nav"].entries()) {
    expect(await look(selector, "outlineColor", "outlineWidth"), selector).toEqual([`rgb(1, 1, ${at + 1})`, `${at + 1}px`]);
  }
  expect(await look(".verdict", "borderTopLeftRadius")).toEqual(["0px"]);
  await page.evaluate(() => document.querySelector("stand-in").open("tube?set=12SK7&have=6SK7&heaters=series"));
  await expect(page.locator(".verdict.no")).toBeVisible();
  expect(await look(".verdict", "borderTopLeftRadius")).toEqual(["8px"]);
});

test("every property that README names is read, and every one that is read is named", async () => {
  const { readFileSync } = await import("node:fs");
  const read = (path) => readFileSync(new URL(`../../${path}`, import.meta.url), "utf8");
  const names = (text) => [...new Set(text.match(/--stand-in-[a-z-]+/g))].sort();
  const table = read("README.md").match(/^\| `--stand-in-.*$/gm).join("\n");
  expect(names(table)).toEqual(names(read("www/style.js").replace("`--stand-in-...`", "")));
});
