// Writes dist/stand-in.js, one module that brings <stand-in> to any page; dist/stand-in.html, the whole page in one file; and dist/answers.d.ts,
// the declarations of what can be asked. www/ has to be built. What runs unbundled in www/ is the same but for www/core.js: see release_core.js.
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { brotliCompressSync, gzipSync } from "node:zlib";
import { fileURLToPath } from "node:url";

const at = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));
const read = (path) => readFileSync(at(path), "utf8");
const esbuild = createRequire(at("tests/browser/package.json"))("esbuild");

/** Every browser that has what www/ uses. */
const target = "es2022";

/** The glue as a function that makes it anew, with classes and instance of its own. */
const glue = async () => {
  const { outputFiles } = await esbuild.build({
    entryPoints: [at("www/stand_in.js")], bundle: true, write: false, format: "cjs", target,
    // Only looked at when the code is not given, and here it is.
    define: { "import.meta.url": "undefined" },
  });
  return `export default () => { const module = { exports: {} }; ${outputFiles[0].text}; return module.exports; };`;
};

const inside = {
  name: "core inside",
  setup(build) {
    build.onResolve({ filter: /\/core\.js$/ }, () => ({ path: at("scripts/release_core.js") }));
    build.onResolve({ filter: /^stand-in:/ }, ({ path }) => ({ path, namespace: "inside" }));
    build.onLoad({ filter: /:glue$/, namespace: "inside" }, async () => ({ contents: await glue(), loader: "js" }));
    build.onLoad({ filter: /:wasm$/, namespace: "inside" }, () => ({
      contents: `export default ${JSON.stringify(gzipSync(readFileSync(at("www/stand_in_bg.wasm")), { level: 9 }).toString("base64"))};`, loader: "js",
    }));
  },
};

const [, version] = /^version = "(.+)"$/m.exec(read("Cargo.toml")) ?? [];
const vendored = read("www/vendor/README.md");
const licences = vendored.slice(vendored.indexOf("## Licence")).replaceAll("*/", "* /");
const banner = `/*! stand-in ${version}, MIT or Apache-2.0 at your option. Vendored inside, under licences of their own:\n\n${licences}*/`;

const { outputFiles: [bundle] } = await esbuild.build({
  entryPoints: [at("www/stand-in.js")], bundle: true, write: false, format: "esm", target, minify: true, charset: "utf8", legalComments: "none",
  banner: { js: banner }, plugins: [inside],
});
const script = bundle.text;

// A module that asks for another file would not be one file.
const asks = script.match(/\bimport\s*\(|\bimport\.meta\b|\bfetch\(new URL\b/g);
// And what ends a script in HTML, or begins one, would end it in the page.
const ends = script.match(/<\/?script/gi);
if (asks) throw new Error(`the module is not complete in itself: ${asks.join(", ")}`);
if (ends) throw new Error(`the module cannot stand in a page: ${ends.join(", ")}`);

/** Takes the place of something that has to be there. */
const put = (text, what, by) => {
  if (!what.test(text)) throw new Error(`www/index.html has no ${what}`);
  return text.replace(what, () => by);
};
const hash = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
const style = read("www/page.css");
const icon = `data:image/svg+xml;base64,${readFileSync(at("www/icons/icon.svg")).toString("base64")}`;
const policy = `default-src 'none'; script-src ${hash(script)} 'wasm-unsafe-eval'; style-src ${hash(style)}; img-src data:; base-uri 'none'; form-action 'none'`;
let page = read("www/index.html").replace(/^ *<(link|script)\b.*\n/gm, "");
page = put(page, / *<!-- Nothing but our own[^]*?-->\n/, "    <!-- Nothing may load or be sent anywhere; what runs is what stands in this file. -->\n");
page = put(page, /content="default-src[^"]*"/, `content="${policy}"`);
page = put(page, / *<\/head>/, `    <link rel="icon" href="${icon}">\n    <style>${style}</style>\n  </head>`);
page = put(page, / *<\/body>/, `    <script type="module">${script}</script>\n  </body>`);
const outside = page.replace(script, "").match(/\b(src|href)="(?!data:)[^"]*"/g);
if (outside) throw new Error(`the page is not complete in itself: ${outside.join(", ")}`);

mkdirSync(at("dist"), { recursive: true });
for (const [name, text] of [["stand-in.js", script], ["stand-in.html", page], ["answers.d.ts", read("www/answers.d.ts")]]) {
  writeFileSync(at(`dist/${name}`), text);
  console.log(`dist/${name}: ${Buffer.byteLength(text)} bytes, ${brotliCompressSync(text).length} compressed`);
}
