// Runs every *.e2e.mjs beside it in a real browser, each against a server with a demo project of its
// own. ROOTSTEAD_PROGRAM is the program; names given pick the tests whose file name holds one.
import { spawn, execFileSync } from "node:child_process";
import { copyFileSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { served } from "./served.mjs";

const program = process.env.ROOTSTEAD_PROGRAM;
if (!program) throw new Error("Set ROOTSTEAD_PROGRAM to the rootstead program.");
const here = new URL(".", import.meta.url).pathname;
const wanted = process.argv.slice(2);
const tests = readdirSync(here)
  .filter((name) => name.endsWith(".e2e.mjs"))
  .filter((name) => wanted.length === 0 || wanted.some((part) => name.includes(part)));
if (tests.length === 0) throw new Error(`No browser test is named ${wanted.join(" or ")}.`);

const folder = mkdtempSync(join(tmpdir(), "rootstead-browser-"));

async function passes(name) {
  const project = join(folder, name.replace(".e2e.mjs", ".gpkg"));
  copyFileSync(join(folder, "demo", "salt-walk.gpkg"), project);
  const { url, stop } = await served(program, project);
  const env = { ...process.env, ROOTSTEAD_URL: url, ROOTSTEAD_PROJECT: project };
  const test = spawn(process.execPath, [join(here, name)], { env, stdio: "inherit" });
  const code = await new Promise((resolve) => test.once("exit", resolve));
  await stop("SIGTERM");
  return code === 0;
}

const failed = [];
try {
  execFileSync(program, ["demo", "--project-only", "--out", join(folder, "demo")], {
    stdio: ["ignore", "ignore", "inherit"],
  });
  for (const name of tests) {
    console.log(`-- ${name}`);
    if (!(await passes(name))) failed.push(name);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
console.log(`browser: ${tests.length - failed.length} passed, ${failed.length} failed ${failed.join(" ")}`);
process.exitCode = failed.length > 0 ? 1 : 0;
