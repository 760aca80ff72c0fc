// The page in a real browser, against the server at ROOTSTEAD_URL: a trench is dragged by mouse and
// a work nudged by keyboard, both answers change and are those
// of `rootstead assess --json` on the saved file to the last digit, undo brings them back, and axe finds nothing to complain of.
import { execFileSync } from "node:child_process";
import { copyFileSync } from "node:fs";
import assert from "node:assert/strict";
import { PATIENCE, browse, clean, gripOf, heaviestLine, heaviestWork, ledger } from "./browsing.mjs";
import { noSideways, onScreen, open as openIn, settled } from "./browsing.mjs";

const base = process.env.ROOTSTEAD_URL;
if (!base) throw new Error("Set ROOTSTEAD_URL to the address that rootstead serve printed.");
const browser = await browse();
const open = (options) => openIn(browser, base, options);

const changed = (before, after, answer) =>
  Object.keys(before).filter((tree) => before[tree][answer] !== after[tree][answer]);

// The file as it lies on disk, read by the program anew, against what the open server says.
async function sameAsAssess(page) {
  const { ROOTSTEAD_PROGRAM: program, ROOTSTEAD_PROJECT: project } = process.env;
  if (!program || !project) return console.log("not compared with assess: ROOTSTEAD_PROGRAM or _PROJECT is not set");
  const copy = `${project}.copy.gpkg`;
  copyFileSync(project, copy);
  const printed = JSON.parse(execFileSync(program, ["assess", copy, "--json"], { maxBuffer: 1e9 }));
  const served = await page.evaluate(() => fetch("/api/assessment").then((reply) => reply.json()));
  assert.deepEqual(served.trees, printed.trees);
  console.log(`${printed.trees.length} trees: the page's answers are those of assess to the last digit`);
}

async function undone(page) {
  const saved = page.waitForResponse((reply) => reply.request().method() === "PUT", { timeout: PATIENCE });
  await page.keyboard.press("Control+z");
  assert.equal((await saved).status(), 200);
  await settled(page, "saved");
}

// Step by step: while the button is down the ledger already says what the trials say.
async function draggedAndUndone(page) {
  const before = await ledger(page);
  const work = await heaviestLine(page);
  await page.locator(`button[data-work=${JSON.stringify(work)}]`).click();
  const [x, y] = await onScreen(page, await gripOf(page, work));
  await page.mouse.move(x, y);
  await page.mouse.down();
  let during = before;
  for (let step = 1; step <= 6 && changed(before, during, 0).length === 0; step += 1) {
    const tried = page.waitForResponse((reply) => reply.url().endsWith("/trial"), { timeout: PATIENCE });
    await page.mouse.move(x + 3 * step, y + 6 * step, { steps: 3 });
    assert.equal((await tried).status(), 200);
    during = await ledger(page);
  }
  assert.ok(
    changed(before, during, 0).length > 0,
    "the health answer of some tree changes while the trench is dragged",
  );
  await page.mouse.up();
  await settled(page, "saved");
  const after = await ledger(page);
  const [loss, kept] = [changed(before, after, 0), changed(before, after, 1)];
  console.log(`${work} dragged: fine roots changed for ${loss.length} trees, anchorage for ${kept.length}`);
  assert.ok(loss.length > 0 && kept.length > 0, "both answers changed");
  await sameAsAssess(page);
  await undone(page);
  assert.deepEqual(await ledger(page), before, "undo brings every answer back");
}

async function nudgedAndUndone(page) {
  const before = await ledger(page);
  const work = await heaviestWork(page);
  assert.ok(work, "a movable work takes something from a tree");
  const button = page.locator(`button[data-work=${JSON.stringify(work)}]`);
  await button.focus();
  await page.keyboard.press("Enter");
  const trials = [];
  page.on("response", (reply) => reply.url().endsWith("/trial") && trials.push(reply.status()));
  let steps = 0;
  let after = before;
  for (const key of ["ArrowUp", "ArrowRight", "ArrowDown", "ArrowLeft"]) {
    await button.focus();
    for (let i = 0; i < 4; i += 1) await page.keyboard.press(key);
    await settled(page, "saved");
    steps += 1;
    after = await ledger(page);
    if (changed(before, after, 0).length > 0 && changed(before, after, 1).length > 0) break;
  }
  await sameAsAssess(page);
  const [loss, kept] = [changed(before, after, 0), changed(before, after, 1)];
  console.log(`${work}: fine roots changed for ${loss.length} trees, anchorage for ${kept.length}`);
  assert.ok(trials.length > 0 && trials.every((status) => status === 200), "places were tried on the way");
  assert.ok(loss.length > 0, "the health answer of some tree changed");
  assert.ok(kept.length > 0, "the stability answer of some tree changed");
  for (let i = 0; i < steps; i += 1) await undone(page);
  assert.deepEqual(await ledger(page), before, "undo brings every answer back");
}

try {
  const { page, wrong } = await open({ viewport: { width: 1440, height: 900 } });
  await draggedAndUndone(page);
  await nudgedAndUndone(page);
  await page.locator("tr[data-tree] th button").first().click();
  await page.locator("details > summary").evaluateAll((all) => all.forEach((one) => one.click()));
  await clean(page, "wide, light");
  assert.deepEqual(wrong, []);
  for (const [width, colorScheme] of [
    [320, "light"],
    [390, "dark"],
    [1024, "dark"],
  ]) {
    const other = await open({ viewport: { width, height: 844 }, colorScheme });
    await other.page.locator("button[data-movable=true]").first().click();
    await noSideways(other.page);
    await clean(other.page, `${width}, ${colorScheme}`);
    assert.deepEqual(other.wrong, []);
  }
  console.log("workbench: all seen");
} finally {
  await browser.close();
}
