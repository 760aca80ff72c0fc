// Prints what the first load costs over the wire and fails above the limit. What is fetched only
// when a view is opened (a dynamic import) is printed apart.
import { readdirSync, readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

const LIMIT_KB = 700;
const dist = new URL("../dist/", import.meta.url);
const read = (name) => readFileSync(new URL(name, dist), "utf8");
const all = readdirSync(dist, { recursive: true })
  .map((name) => String(name).replaceAll("\\", "/"))
  .filter((name) => /\.(js|css|html)$/.test(name));

const first = new Set(["index.html"]);
for (const [, path] of read("index.html").matchAll(/(?:src|href)="\/?([^"]+\.(?:js|css))"/g)) first.add(path);
for (const name of first) {
  if (!name.endsWith(".js")) continue;
  for (const [, path] of read(name).matchAll(/(?:from|import)\s*"(\.[^"]+\.js)"/g))
    first.add(new URL(path, new URL(name, dist)).pathname.slice(dist.pathname.length));
}

const kbOf = (names) => names.reduce((sum, name) => sum + gzipSync(read(name)).length, 0) / 1000;
const later = all.filter((name) => !first.has(name));
const kb = kbOf([...first]);
console.log(`first load: ${kb.toFixed(1)} kB gzipped in ${first.size} files (limit ${LIMIT_KB} kB)`);
console.log(`on demand: ${kbOf(later).toFixed(1)} kB gzipped in ${later.length} files`);
if (kb > LIMIT_KB || first.size < 3) process.exit(1);
