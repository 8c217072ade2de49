// Holds what a phone downloads against the budgets. Raising one is an edit here, with its date and reason.
//
// Measured with brotli, which static hosts and every browser speak; gzip is printed beside it.
import { readFileSync } from "node:fs";
import { brotliCompressSync, gzipSync } from "node:zlib";
import { createContext, runInContext } from "node:vm";

const budgets = {
  // The whole of it: page, core, book, icons. 2026-11-25: 420,000 instead of 300,000, with everything that came after the first page: the row form,
  // search and preview of files, swaps of whole sets, every supply, heater warm-up, colour codes, parts lists. 2026-11-30: 500,000, with job sheets, want
  // and shopping lists, stock, bring-up, British words and the embedding.
  everything: 500_000,
  // 2026-11-25: 300,000 instead of 220,000, for the book in it grew from 150 types to 1,300 with 2,400 names (40,000 bytes of it are the book), and
  // the engines from half-wave supplies and ten checks to what they are now. 2026-11-30: 350,000, with whole sets and what is folded over all of them.
  wasm: 350_000,
};
const context = createContext({ self: {} });
runInContext(readFileSync("www/sw-files.js", "utf8"), context);
const files = [...context.self.STAND_IN.files.filter((file) => file !== "./"), "index.html", "sw.js", "sw-files.js"];
const sizes = files.map((file) => {
  const bytes = readFileSync(`www/${file}`);
  return { file, brotli: brotliCompressSync(bytes).length, gzip: gzipSync(bytes, { level: 9 }).length };
}).sort((a, b) => b.brotli - a.brotli);
for (const { file, brotli } of sizes.slice(0, 6)) console.log(`${String(brotli).padStart(8)}  ${file}`);
const sum = (kind) => sizes.reduce((all, size) => all + size[kind], 0);
const wasm = sizes.find(({ file }) => file === "stand_in_bg.wasm");
console.log(`wasm ${wasm.brotli} of ${budgets.wasm} bytes (gzip ${wasm.gzip}), everything ${sum("brotli")} of ${budgets.everything} bytes (gzip ${sum("gzip")})`);
if (wasm.brotli > budgets.wasm || sum("brotli") > budgets.everything) {
  console.error("error: over the size budget");
  process.exit(1);
}
