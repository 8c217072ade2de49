// Serves a directory on this machine for trying and testing the page: node scripts/serve.mjs [PORT] [DIRECTORY]
// PORT is 8173 when left out, 0 takes a free one; DIRECTORY is www. Prints the address. No caching, so that a change shows.
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { extname, join, normalize, sep } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".webmanifest": "application/manifest+json",
  ".wasm": "application/wasm",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".md": "text/plain; charset=utf-8",
  ".ts": "text/plain; charset=utf-8",
};

/** Starts serving; resolves with the server and its address once it listens. */
export const serve = (port, directory) =>
  new Promise((resolve, reject) => {
    const server = createServer(async (request, response) => {
      const refuse = (status) => response.writeHead(status, { "content-type": "text/plain" }).end(`${status}\n`);
      if (request.method !== "GET" && request.method !== "HEAD") return refuse(405);
      let path;
      try {
        path = normalize(decodeURIComponent(new URL(request.url ?? "/", "http://localhost").pathname));
      } catch {
        return refuse(400);
      }
      const file = join(directory, path.endsWith(sep) ? join(path, "index.html") : path);
      try {
        const body = await readFile(file);
        response.writeHead(200, {
          "content-type": TYPES[extname(file)] ?? "application/octet-stream",
          "content-length": body.length,
          "cache-control": "no-cache",
        });
        response.end(request.method === "HEAD" ? undefined : body);
      } catch {
        refuse(404);
      }
      return undefined;
    });
    server.on("error", reject);
    server.listen(port, "127.0.0.1", () => resolve({ server, address: `http://127.0.0.1:${server.address().port}/` }));
  });

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const [port = "8173", directory = fileURLToPath(new URL("../www", import.meta.url))] = process.argv.slice(2);
  if (!/^\d{1,5}$/.test(port)) {
    console.error(`error: the port is ${port}; accepted: a number from 0 to 65535`);
    process.exit(1);
  }
  serve(Number(port), directory).then(
    ({ address }) => console.log(`Stand-in is served at ${address} (stop with Ctrl-C)`),
    (reason) => {
      console.error(`error: ${reason.message}`);
      process.exit(1);
    },
  );
}
