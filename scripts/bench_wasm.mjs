// `candidates` over a book of 10,000 rows in WebAssembly (budget 5 ms), and the start of the core from its bytes.
import { readFileSync } from "node:fs";
import { Bench, initSync } from "../www/stand_in.js";

let start = performance.now();
initSync({ module: readFileSync(new URL("../www/stand_in_bg.wasm", import.meta.url)) });
const bench = new Bench();
bench.ask('{"ask":"tube","type":"12SK7"}');
console.log(`start to first answer: ${(performance.now() - start).toFixed(0)} ms`);

const sheet = JSON.stringify({ ask: "sheet", sheet: JSON.parse(readFileSync(new URL("../tests/tables/demo_sheet.json", import.meta.url), "utf8")) });
let whole = Infinity;
for (let i = 0; i < 10; i++) {
  start = performance.now();
  bench.ask(sheet);
  whole = Math.min(whole, performance.now() - start);
}
console.log(`a whole set of 5 tubes and 25 parts in wasm: ${whole.toFixed(1)} ms (budget 60 ms)`);

const [header, ...rows] = bench.export("tubes").trimEnd().split("\n");
const many = [header];
for (let i = 0; many.length <= 10_000; i++) many.push(rows[i % rows.length].replace(/^("?)([^,"]+)/, `$1$2#${Math.floor(i / rows.length)}`));
bench.load("tubes", many.join("\n"));
const question = '{"ask":"candidates","original":"12SK7","socket":{"supply":{"kind":"series"}}}';
let least = Infinity;
for (let i = 0; i < 30; i++) {
  start = performance.now();
  bench.ask(question);
  least = Math.min(least, performance.now() - start);
}
console.log(`candidates over ${JSON.parse(bench.ask(question)).looked_at} types in wasm: ${least.toFixed(2)} ms (budget 5 ms)`);

// A file of 100,000 rows in steps, as the page lays it over: the longest step is how long the page cannot answer.
const large = [header];
for (let i = 0; large.length <= 100_000; i++) large.push(rows[i % rows.length].replace(/^("?)([^,"]+)/, `$1$2#${Math.floor(i / rows.length)}`));
const csv = large.join("\n");
const fresh = new Bench();
const times = [];
const timed = (run) => { const start = performance.now(); const result = run(); times.push(performance.now() - start); return result; };
timed(() => fresh.load_begin("tubes", csv));
while (timed(() => fresh.load_step(1000)) < 1);
const report = JSON.parse(timed(() => fresh.load_finish()));
console.log(`${report.rows} rows in wasm: ${times.reduce((a, b) => a + b).toFixed(0)} ms in ${times.length} steps, begin ${times[0].toFixed(0)} ms, longest step ${Math.max(...times.slice(1, -1)).toFixed(0)} ms, finish ${times.at(-1).toFixed(0)} ms`);
