// The page in a browser, on a phone and at a desk, by daylight and in the dark: how it looks in all four, what it does in two of them; what scripts/release
// writes, once. Nothing is downloaded: the browser is the one named in
// STAND_IN_CHROMIUM, or one that is found.
import { existsSync } from "node:fs";
import { defineConfig } from "@playwright/test";

const browsers = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
const executablePath = process.env.STAND_IN_CHROMIUM || browsers.find((path) => existsSync(path));
if (!executablePath) throw new Error("no Chromium is found; name one in STAND_IN_CHROMIUM");

const phone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };
const desk = { viewport: { width: 1280, height: 800 } };
const looks = "layout.spec.js";
const release = ["embed.spec.js", "release.spec.js"];
const project = (name, use, testMatch = "*.spec.js") => ({ name, use, testIgnore: ["plain/**", ...release], testMatch });

export default defineConfig({
  testDir: ".",
  testMatch: "**/*.spec.js",
  outputDir: "results",
  reporter: "list",
  workers: 2,
  fullyParallel: true,
  forbidOnly: true,
  retries: 0,
  timeout: 30_000,
  expect: { timeout: 5_000 },
  use: {
    launchOptions: {
      executablePath,
      args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking"],
    },
  },
  projects: [
    { name: "plain", testMatch: "plain/**/*.spec.js" },
    { name: "release", use: { ...desk, colorScheme: "light" }, testMatch: release },
    project("phone, light", { ...phone, colorScheme: "light" }),
    project("phone, dark", { ...phone, colorScheme: "dark" }, looks),
    project("desk, light", { ...desk, colorScheme: "light" }, looks),
    project("desk, dark", { ...desk, colorScheme: "dark" }),
  ],
});
