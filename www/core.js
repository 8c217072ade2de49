// Where the core comes from: a new WebAssembly instance for whoever asks, the code of it fetched and compiled once. The release has a module
// of its own in place of this one (scripts/release_core.js), with the code inside.

/** @typedef {typeof import("./stand_in.js")} Glue */
/** @typedef {Glue["Bench"]} Kind makes a bench in its instance */

/** The code, once somebody has asked for it. @type {Promise<WebAssembly.Module> | null} */
let code = null;
let made = 0;

/** A module address is instantiated once, so for another instance the same module is taken under a further address. @returns {Promise<Kind>} */
export const fresh = async () => {
  const glue = /** @type {Glue} */ (await (made++ ? import(`./stand_in.js?start=${made}`) : import("./stand_in.js")));
  code ??= fetched();
  try {
    await glue.default({ module_or_path: await code });
  } catch (reason) {
    // Not kept: the next who asks tries again.
    code = null;
    throw reason;
  }
  return glue.Bench;
};

const fetched = async () => {
  const at = new URL("./stand_in_bg.wasm", import.meta.url);
  const answer = await fetch(at);
  if (!answer.ok) throw new Error(`${answer.status} ${answer.statusText} fetching ${at}`);
  // A host that does not say what the file is gets it compiled after it has come, not while it comes.
  return /^application\/wasm\b/.test(answer.headers.get("content-type") ?? "") ? WebAssembly.compileStreaming(answer) : WebAssembly.compile(await answer.arrayBuffer());
};
