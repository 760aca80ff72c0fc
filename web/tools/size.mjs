// Prints what the first load costs over the wire and fails above the limit.
import { readdirSync, readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

const LIMIT_KB = 700;
const dist = new URL("../dist/", import.meta.url);
const files = readdirSync(dist, { recursive: true })
  .map(String)
  .filter((name) => /\.(js|css|html)$/.test(name));
const bytes = files.reduce((sum, name) => sum + gzipSync(readFileSync(new URL(name, dist))).length, 0);
const kb = bytes / 1000;
console.log(`first load: ${kb.toFixed(1)} kB gzipped in ${files.length} files (limit ${LIMIT_KB} kB)`);
if (kb > LIMIT_KB) process.exit(1);
