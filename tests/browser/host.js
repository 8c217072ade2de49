// Pages of somebody else with the released module in them, and a core that can be made to trap.
import { existsSync, readFileSync } from "node:fs";

const DIST = new URL("../../dist/", import.meta.url);
/** A file of the release. @param {string} name */
export const released = (name) => {
  const file = new URL(name, DIST);
  if (!existsSync(file)) throw new Error(`dist/${name} is not there: scripts/release writes it`);
  return file;
};

/** What a careful host allows: nothing inline, nothing fetched, no eval, no markup made of text but by a named policy. */
export const STRICT = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; require-trusted-types-for 'script'; trusted-types lit-html";

/**
 * Opens a page of somebody else: not a line of ours but the module and what stands in its body.
 * @param {import("@playwright/test").Page} page
 * @param {string} site an address whose storage it has
 * @param {{ body: string, css?: string, policy?: string, script?: string, hash?: string }} what
 */
export const embed = async (page, site, { body, css = "", policy = STRICT, script = "widget.js", hash = "" }) => {
  const answer = (path, contentType, text, headers = {}) => page.route(`${site}${path}`, (route) => route.fulfill({ contentType, body: text, headers }));
  await answer("widget.js", "text/javascript", readFileSync(released("stand-in.js")));
  // Asked for by the browser of its own accord.
  await page.route("**/favicon.ico", (route) => route.fulfill({ status: 204 }));
  await answer("host.css", "text/css", css);
  await answer("host.html", "text/html", `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Of somebody else</title>
    <link rel="stylesheet" href="host.css"><script type="module" src="${script}"></script></head><body>${body}</body></html>`, { "content-security-policy": policy });
  await page.goto(`${site}host.html${hash}`);
};

/** Runs in the page before anything else: so many of the next questions to any core as `window.traps` says are asked of a bench that is not there, which traps the instance. */
export const trappable = () => {
  const { instantiate } = WebAssembly;
  window.traps = 0;
  WebAssembly.instantiate = async (code, imports) => {
    const instance = await instantiate(code, imports);
    const bench_ask = (bench, ...rest) => instance.exports.bench_ask(window.traps-- > 0 ? 0xfffffff0 : bench, ...rest);
    return { instance: { exports: { ...instance.exports, bench_ask } }, module: code };
  };
};
