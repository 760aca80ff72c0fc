// The page in a real browser, against the server at ROOTSTEAD_URL: a work is nudged by keyboard,
// both answers change, undo brings them back, and axe finds nothing to complain of.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import assert from "node:assert/strict";
import { chromium } from "playwright-core";

const base = process.env.ROOTSTEAD_URL;
if (!base) throw new Error("Set ROOTSTEAD_URL to the address that rootstead serve printed.");
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const PATIENCE = Number(process.env.ROOTSTEAD_PATIENCE_MS ?? 60_000);

const ARGS = [
  "--headless",
  "--no-sandbox",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ARGS });

// What the ledger says, tree by tree. Only lines in sight are drawn, so it is scrolled through.
const ledger = (page) =>
  page.evaluate(async () => {
    const scroller = document.querySelector(".ledger .lines");
    const frames = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())));
    const said = {};
    for (let top = 0; ; top += scroller.clientHeight / 2) {
      scroller.scrollTop = top;
      await frames();
      for (const row of document.querySelectorAll("tr[data-tree]"))
        said[row.dataset.tree] = ["loss", "kept"].map((answer) =>
          row.querySelector(`[data-answer=${answer}]`).textContent.trim(),
        );
      if (top + scroller.clientHeight >= scroller.scrollHeight) break;
    }
    scroller.scrollTop = 0;
    return said;
  });
const settled = (page, said) => page.waitForSelector(`[data-said="${said}"]`, { timeout: PATIENCE });
const changed = (before, after, answer) =>
  Object.keys(before).filter((tree) => before[tree][answer] !== after[tree][answer]);

async function open(options, before) {
  const context = await browser.newContext({ locale: "en-GB", ...options });
  const page = await context.newPage();
  if (before) await page.addInitScript(before);
  const wrong = [];
  page.on("pageerror", (error) => wrong.push(error.message));
  page.on("console", (message) => message.type() === "error" && wrong.push(message.text()));
  page.on(
    "request",
    (request) =>
      new URL(request.url()).origin !== new URL(base).origin &&
      !/^(data|blob):/.test(request.url()) &&
      wrong.push(`asked elsewhere: ${request.url()}`),
  );
  await page.goto(base);
  await page.waitForSelector("tr[data-tree]", { timeout: PATIENCE });
  return { page, wrong };
}

// The movable work that takes most of any tree: there both answers have room to change.
async function heaviestWork(page) {
  return page.evaluate(async () => {
    const [site, assessment] = await Promise.all(
      ["site", "assessment"].map((name) => fetch(`/api/${name}`).then((reply) => reply.json())),
    );
    const movable = new Set(site.works.filter((work) => work.movable).map((work) => work.id));
    const parts = assessment.trees.flatMap((tree) => tree.by_work).filter((part) => movable.has(part.work));
    return parts.sort((a, b) => (b.absorbing_loss?.best ?? 0) - (a.absorbing_loss?.best ?? 0))[0]?.work;
  });
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
  const [loss, kept] = [changed(before, after, 0), changed(before, after, 1)];
  console.log(`${work}: fine roots changed for ${loss.length} trees, anchorage for ${kept.length}`);
  assert.ok(trials.length > 0 && trials.every((status) => status === 200), "places were tried on the way");
  assert.ok(loss.length > 0, "the health answer of some tree changed");
  assert.ok(kept.length > 0, "the stability answer of some tree changed");
  for (let i = 0; i < steps; i += 1) {
    const saved = page.waitForResponse((reply) => reply.request().method() === "PUT", { timeout: PATIENCE });
    await page.keyboard.press("Control+z");
    assert.equal((await saved).status(), 200);
    await settled(page, "saved");
  }
  assert.deepEqual(await ledger(page), before, "undo brings every answer back");
}

async function clean(page, name) {
  // Run in the page's own world by the debugger, which the content policy does not hold up.
  await page.evaluate(axe);
  const { violations, passes } = await page.evaluate(() =>
    window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }),
  );
  for (const { id, help, nodes } of violations)
    console.log(`axe ${name}: ${id}: ${help}\n  ${nodes.map((node) => node.html.slice(0, 160)).join("\n  ")}`);
  console.log(`axe ${name}: ${violations.length} violations, ${passes.length} checks passed`);
  assert.equal(violations.length, 0);
}
// Each view of one tree and one work, by keyboard, with axe on it.
async function everyView(page, name) {
  await page.locator("tr[data-tree] th button[tabindex='0']").focus();
  await page.keyboard.press("Enter");
  await page.waitForSelector(".sheet .answers");
  await page.waitForSelector(".sheet details dl", { timeout: PATIENCE });
  await clean(page, `${name}: sheet`);
  await trailOpens(page, name);
  await page.locator("#tab-sheet").focus();
  await page.keyboard.press("ArrowRight");
  await page.waitForSelector(".section-view svg[role=img]", { timeout: PATIENCE });
  await page.locator(".section-view details > summary").evaluateAll((all) => all.forEach((one) => one.click()));
  assert.ok((await page.locator(".section-view tbody tr").count()) > 0, "the section is also a table");
  await clean(page, `${name}: section`);
  await page.locator("#tab-section").focus();
  await page.keyboard.press("ArrowRight");
  await drawnInSpace(page);
  await clean(page, `${name}: roots`);
  await page.locator("#tab-roots").focus();
  await page.keyboard.press("ArrowRight");
  await page.waitForSelector(".charts figure svg", { timeout: PATIENCE });
  await page.waitForFunction(() => document.querySelectorAll(".charts figure svg").length === 3, null, {
    timeout: PATIENCE,
  });
  await clean(page, `${name}: charts`);
}
async function trailOpens(page, name) {
  const why = page.locator(".sheet .why").first();
  await why.focus();
  await page.keyboard.press("Enter");
  await page.waitForSelector("dialog.trail[open]");
  const terms = await page.locator("dialog.trail dt").allTextContents();
  assert.ok(terms.length >= 5, `the trail tells formula, inputs, source, status and pit (${terms})`);
  await clean(page, `${name}: trail`);
  await page.keyboard.press("Escape");
  await page.waitForSelector("dialog.trail[open]", { state: "detached" });
  assert.ok(await why.evaluate((one) => document.activeElement === one), "the focus is back on the figure");
}
// Without a graphics card: whatever the browser draws with, the canvas holds more than one colour and
// another after it was turned.
async function drawnInSpace(page) {
  const stage = page.locator(".turn");
  await page.waitForSelector(".turn[data-drawn]:not([data-drawn=''])", { timeout: PATIENCE });
  await page.waitForTimeout(500);
  const before = await stage.screenshot();
  await stage.focus();
  for (let i = 0; i < 3; i += 1) await page.keyboard.press("ArrowUp");
  await page.waitForTimeout(500);
  const after = await stage.screenshot();
  assert.ok(before.length > 4000, `something is drawn (${before.length} bytes)`);
  assert.notDeepEqual(before, after, "turning changes what is drawn");
  assert.match(await page.locator(".always").innerText(), /drawn by lot, not a map/);
}
async function layersShow(page, name) {
  await page.locator("details.key > summary").click();
  for (const one of await page.locator("details.key input[type=checkbox]").all()) await one.check();
  await page.waitForFunction(() => document.querySelectorAll("details.key li > svg").length > 6, null, {
    timeout: PATIENCE,
  });
  await clean(page, `${name}: layers`);
}
// The list stays usable by keyboard: End and Home go to its ends, the focus stays on a line.
async function ledgerByKeys(page) {
  await page.locator("tr[data-tree] th button[tabindex='0']").focus();
  const at = () => page.evaluate(() => Number(document.activeElement.closest("tr").getAttribute("aria-rowindex")));
  const rows = Number(await page.locator(".ledger table").getAttribute("aria-rowcount"));
  for (const [key, row] of [
    ["End", rows],
    ["Home", 2],
    ["ArrowDown", 3],
  ]) {
    await page.keyboard.press(key);
    await page.waitForTimeout(150);
    assert.equal(await at(), row, `${key} goes to row ${row} of ${rows}`);
  }
}
// A browser that cannot draw in space says so in one sentence and shows the roots flat.
async function withoutWebGl() {
  const { page, wrong } = await open({ viewport: { width: 1024, height: 768 } }, () => {
    const real = HTMLCanvasElement.prototype.getContext;
    HTMLCanvasElement.prototype.getContext = function (kind, ...more) {
      return kind.startsWith("webgl") ? null : real.call(this, kind, ...more);
    };
  });
  await page.locator("tr[data-tree] th button").first().click();
  await page.locator("#tab-roots").click();
  await page.waitForSelector(".sketches svg path", { timeout: PATIENCE });
  assert.equal(await page.locator(".turn").count(), 0);
  await clean(page, "without WebGL");
  assert.deepEqual(wrong, []);
}
async function noSideways(page) {
  const [inner, outer] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  assert.ok(inner <= outer, `nothing lies beyond the side of the page (${inner} of ${outer})`);
}

try {
  const { page, wrong } = await open({ viewport: { width: 1440, height: 900 } });
  await nudgedAndUndone(page);
  await ledgerByKeys(page);
  await everyView(page, "wide, light");
  await layersShow(page, "wide, light");
  assert.deepEqual(wrong, []);
  for (const [width, colorScheme] of [
    [320, "light"],
    [390, "dark"],
    [1024, "dark"],
  ]) {
    const other = await open({ viewport: { width, height: 844 }, colorScheme });
    await other.page.locator("button[data-movable=true]").first().click();
    await noSideways(other.page);
    await everyView(other.page, `${width}, ${colorScheme}`);
    await noSideways(other.page);
    assert.deepEqual(other.wrong, []);
  }
  await withoutWebGl();
  console.log("workbench: all seen");
} finally {
  await browser.close();
}
