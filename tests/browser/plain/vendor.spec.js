// The vendored modules are byte for byte what their packages have, and the note beside them says so.
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { expect, test } from "@playwright/test";

const at = (path) => new URL(path, import.meta.url);
const note = readFileSync(at("../../../www/vendor/README.md"), "utf8");
const rows = [...note.matchAll(/^\| `(\S+)` \| (\S+) (\S+) \| `(\S+)` \| \S+ \| `([0-9a-f]{64})` \|$/gm)];
const sha256 = (file) => createHash("sha256").update(readFileSync(file)).digest("hex");

test("the note names both modules", () => {
  expect(rows.map(([, file]) => file).sort()).toEqual(["idb.js", "lit-html.js"]);
});

for (const [, file, name, version, path, checksum] of rows) {
  test(`${file} has its checksum and is that of ${name} ${version}`, () => {
    expect(sha256(at(`../../../www/vendor/${file}`))).toBe(checksum);
    const { devDependencies } = JSON.parse(readFileSync(at("../package.json"), "utf8"));
    expect(devDependencies[name]).toBe(version);
    expect(sha256(at(`../node_modules/${name}/${path}`))).toBe(checksum);
  });
}
