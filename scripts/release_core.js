// Stands in place of www/core.js in the release: the code is inside, compressed and as text, so that one file is enough and nothing is fetched. The
// glue that wasm-bindgen writes serves one instance, therefore it comes here as a function that makes it anew (scripts/release.mjs).
import make from "stand-in:glue";
import text from "stand-in:wasm";

/** The code, compiled once for all instances. @type {Promise<WebAssembly.Module> | undefined} */
let code;

const compiled = () => {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const whole = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return WebAssembly.compileStreaming(new Response(whole, { headers: { "content-type": "application/wasm" } }));
};

/** @returns {Promise<typeof import("../www/stand_in.js").Bench>} */
export const fresh = async () => {
  code ??= compiled();
  const { default: init, Bench } = make();
  await init({ module_or_path: await code });
  return Bench;
};
