// What is looked at beside the plan, in a real browser against the server at ROOTSTEAD_URL: every view
// by keyboard, with axe on it, wide and narrow, light and dark, with WebGL and without.
import assert from "node:assert/strict";
import { PATIENCE, browse, clean, heaviestWork, noSideways, open as openIn } from "./browsing.mjs";

const base = process.env.ROOTSTEAD_URL;
if (!base) throw new Error("Set ROOTSTEAD_URL to the address that rootstead serve printed.");
const browser = await browse();
const open = (options, before) => openIn(browser, base, options, before);

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

try {
  for (const [width, height, colorScheme] of [
    [1440, 900, "light"],
    [320, 844, "light"],
    [390, 844, "dark"],
    [1024, 768, "dark"],
  ]) {
    const { page, wrong } = await open({ viewport: { width, height }, colorScheme });
    const name = `${width}, ${colorScheme}`;
    const work = await heaviestWork(page);
    await page.locator(`button[data-work=${JSON.stringify(work)}]`).click();
    await ledgerByKeys(page);
    await everyView(page, name);
    await layersShow(page, name);
    await noSideways(page);
    assert.deepEqual(wrong, []);
  }
  await withoutWebGl();
  console.log("views: all seen");
} finally {
  await browser.close();
}
