// Writes www/sw-files.js: the files that make up the page and a version made from their contents, which sw.js imports. A changed
// file changes the version, and with it the browser sees an update.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const root = "www";
// Not needed by the page: declarations, notes, and the service worker itself, which the browser keeps on its own.
const left = (path) => /\.(d\.ts|md|txt)$|(^|\/)tsconfig\.json$|^sw(-files)?\.js$/.test(path);
const files = [];
const walk = (dir) => {
  for (const entry of readdirSync(join(root, dir), { withFileTypes: true })) {
    const path = dir ? `${dir}/${entry.name}` : entry.name;
    if (entry.isDirectory()) walk(path);
    else if (!left(path)) files.push(path);
  }
};
walk("");
files.sort();
const hash = createHash("sha256");
for (const file of [...files, "sw.js"]) hash.update(file).update(readFileSync(join(root, file)));
const version = hash.digest("hex").slice(0, 12);
const list = ["./", ...files.filter((file) => file !== "index.html")];
writeFileSync(join(root, "sw-files.js"), `// Written by scripts/build.\nself.STAND_IN = ${JSON.stringify({ version, files: list }, null, 1)};\n`);
