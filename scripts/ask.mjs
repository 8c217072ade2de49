// Asks the built core one question from the command line: node scripts/ask.mjs '{"ask":"tube","type":"12SK7"}'
// Build it first (scripts/build --quick). Prints the answer as indented JSON.
import { readFileSync } from "node:fs";
import { Bench, initSync } from "../www/stand_in.js";

initSync({ module: readFileSync(new URL("../www/stand_in_bg.wasm", import.meta.url)) });
const bench = new Bench();
for (const question of process.argv.slice(2)) console.log(JSON.stringify(JSON.parse(bench.ask(question)), null, 1));
