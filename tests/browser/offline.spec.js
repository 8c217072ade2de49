// After one visit the page needs no network, and a newer version is offered, never forced.
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { serve } from "../../scripts/serve.mjs";
import { WWW, expect, test } from "./bench.js";

test.use({ serviceWorkers: "allow" });

/** The page kept on the device: its worker is in charge. */
const kept = async (page) => {
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
};

test("after one visit it answers without a network, reloaded", async ({ stand, page, context }) => {
  await stand.open();
  await expect(page.getByText("From now on this page also works without a network.")).toBeVisible();
  await kept(page);
  await context.setOffline(true);
  await page.reload();
  await stand.blank("The set wants").fill("12SK7");
  await expect(stand.verdict).toContainText("pentode, remote cut-off");
  // An address of its own, opened anew, works as well.
  await page.goto("about:blank");
  await page.goto(`${stand.site}#part/resistor?marking=500k+20%25&measured=560k`);
  await expect(stand.verdict.locator("h2")).toHaveText("Leave it in.");
  await context.setOffline(false);
});

test("everything the page loads is on the list of files to keep", async ({ stand, page }) => {
  const loaded = new Set();
  page.on("request", (request) => loaded.add(request.url().replace(stand.site, "").replace(/[?#].*/, "")));
  await stand.open("#tube?set=12SK7&have=12SK7GT");
  for (const place of ["Supply", "Part"]) await stand.bar(place).click();
  await kept(page);
  const list = await page.evaluate(async () => {
    const [name] = await caches.keys();
    const cache = await caches.open(name);
    return (await cache.keys()).map(({ url }) => new URL(url).pathname.slice(1));
  });
  const notKept = [...loaded].filter((path) => !list.includes(path) && !/^sw(-files)?\.js$/.test(path));
  expect(loaded.size).toBeGreaterThan(20);
  expect(notKept).toEqual([]);
});

test("a newer version is offered, kept waiting, and taken with one tap; only our older caches go", async ({ page }) => {
  const directory = mkdtempSync(join(tmpdir(), "stand-in-www-"));
  cpSync(WWW, directory, { recursive: true });
  const { server, address } = await serve(0, directory);
  try {
    await page.goto(address);
    await page.getByLabel("The set wants").fill("12SK7");
    await kept(page);
    await page.evaluate(() => caches.open("of-another-program"));
    const names = () => page.evaluate(async () => (await caches.keys()).sort());
    const [before] = (await names()).filter((name) => name.startsWith("stand-in-"));

    const list = join(directory, "sw-files.js");
    writeFileSync(list, readFileSync(list, "utf8").replace(/"version": "\w+"/, '"version": "newer"'));
    const words = join(directory, "words.js");
    writeFileSync(words, readFileSync(words, "utf8").replace('set: "The set wants"', 'set: "This set wants"'));
    await page.reload();
    await expect(page.getByText("A newer version is ready.")).toBeVisible();
    // Not forced: what was typed is still there, under the old words.
    await expect(page.getByLabel("The set wants", { exact: true })).toHaveValue("12SK7");
    expect(await names()).toContain(before);

    await page.getByRole("button", { name: "Use it now" }).click();
    await expect(page.getByLabel("This set wants", { exact: true })).toHaveValue("12SK7");
    expect(await names()).toEqual(["of-another-program", "stand-in-newer"]);
  } finally {
    server.closeAllConnections();
    server.close();
    rmSync(directory, { recursive: true });
  }
});
