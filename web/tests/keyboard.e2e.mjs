// Twelve tasks by keyboard alone: nothing here points, clicks or sets a value from outside. What
// has the focus is found with Tab, lists are walked with arrow keys, texts are typed.
import assert from "node:assert/strict";
import { PATIENCE, browse, open as openIn, settled } from "./browsing.mjs";

const base = process.env.ROOTSTEAD_URL;
if (!base) throw new Error("Set ROOTSTEAD_URL to the address that rootstead serve printed.");
const browser = await browse();
const MOST_TABS = 400;
const siteOf = (page) => page.evaluate(() => fetch("/api/site").then((reply) => reply.json()));

const { page, wrong } = await openIn(browser, base, { viewport: { width: 1440, height: 900 } });
const keys = page.keyboard;
const focused = (selector) => page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector);

// Tab until what is wanted has the focus; the focus must be seen when it is there.
async function reach(selector, key = "Tab") {
  for (let i = 0; i < MOST_TABS; i += 1) {
    if (await focused(selector)) break;
    await keys.press(key);
  }
  assert.ok(await focused(selector), `${key} leads to ${selector}`);
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
  assert.notEqual(outline, "none", `the focus on ${selector} is seen`);
}
async function press(selector) {
  await reach(selector);
  await keys.press("Enter");
}
async function choose(selector, value) {
  await reach(selector);
  await keys.press("Home");
  for (let i = 0; i < 500; i += 1) {
    if ((await page.evaluate(() => document.activeElement.value)) === value) return;
    await keys.press("ArrowDown");
  }
  assert.fail(`${value} is in the list ${selector}`);
}
async function type(selector, text) {
  await reach(selector);
  await keys.press("Control+a");
  await keys.type(text);
}
async function answered(method, path, act) {
  const reply = page.waitForResponse(
    (one) => one.request().method() === method && path.test(new URL(one.url()).pathname),
    { timeout: PATIENCE },
  );
  await act();
  const { status } = { status: (await reply).status() };
  assert.equal(status, 200, `${method} ${path} is answered (${status})`);
}
const edited = async (act) => {
  await answered("POST", /^\/api\/edits$/, act);
  await settled(page, "edited");
};
const moved = async (act) => {
  await answered("PUT", /\/shape$/, act);
  await settled(page, "saved");
};

let task = 0;
const done = (what) => console.log(`${(task += 1)}. ${what}: by keyboard`);
const quoted = (id) => JSON.stringify(id);

try {
  // 1. Open: the page is loaded; the first thing Tab meets leads past the tools.
  await keys.press("Tab");
  assert.ok(await focused("a.skip"), "the first Tab meets the way past the tools");
  done("opened");

  // 2. Choose a work.
  const start = await siteOf(page);
  const work = start.works.find((one) => one.movable && one.shape.lines.length === 1);
  const workButton = `button[data-work=${quoted(work.id)}]`;
  await press(workButton);
  assert.equal(await page.getAttribute(workButton, "aria-pressed"), "true");
  done("a work chosen");

  // 3. Nudge it; 4. undo; 5. redo.
  const eastOf = async () => (await siteOf(page)).works.find((one) => one.id === work.id).shape.lines[0][0][0];
  const before = await eastOf();
  await moved(() => keys.press("ArrowRight"));
  assert.ok(Math.abs((await eastOf()) - before - 0.5) < 1e-6, "it lies a step to the east");
  done("nudged");
  await moved(() => keys.press("Control+z"));
  assert.ok(Math.abs((await eastOf()) - before) < 1e-6, "undo brings it back");
  done("undone");
  await moved(() => keys.press("Control+Shift+z"));
  assert.ok(Math.abs((await eastOf()) - before - 0.5) < 1e-6, "redo moves it again");
  done("redone");

  // 6. Add a work by typed coordinates.
  const [x, y] = start.trees.find((tree) => tree.at).at;
  await press("[data-tray=edit]");
  await press("[data-add=work]");
  await type("#sketch-fields input[name=name]", "Keyed drain");
  await choose("#sketch-fields select[name=kind]", "trench");
  await type("#sketch-fields input[name=width]", "0.3");
  await type("#sketch-fields input[name=depth]", "0.6");
  await type("#tray-edit input[name=x]", String(x + 3));
  await type("#tray-edit input[name=y]", String(y - 8));
  await keys.press("Enter");
  await type("#tray-edit input[name=y]", String(y + 8));
  await keys.press("Enter");
  assert.equal(await page.locator(".corners tbody tr").count(), 2);
  await edited(() => press("button[form=sketch-fields]"));
  const drain = async () => (await siteOf(page)).works.find((one) => one.name === "Keyed drain");
  assert.ok(Math.abs((await drain()).depth_m - 0.6) < 1e-9);
  done("a work added by typed coordinates");

  // 7. Change its depth: the work that was added is chosen.
  await press("[data-change=work]");
  await type("#sketch-fields input[name=depth]", "0.75");
  await edited(() => press("button[form=sketch-fields]"));
  assert.ok(Math.abs((await drain()).depth_m - 0.75) < 1e-9);
  done("its depth changed");

  // 8. Split it.
  const count = (await siteOf(page)).works.length;
  await press("[data-split]");
  await type("input[name=along]", "6");
  await edited(() => press("[data-split-save]"));
  assert.equal((await siteOf(page)).works.length, count + 1);
  done("split");

  // 9. Take it away.
  await edited(() => press("[data-remove=work]"));
  assert.equal((await siteOf(page)).works.length, count);
  done("taken away");

  // 10. Add a tree by tape: two distances from two known trees.
  const [a, b] = start.trees.filter((tree) => tree.at);
  const base_m = Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]);
  await press("[data-add=tree]");
  await type("#sketch-fields input[name=tag]", "Taped");
  await type("#sketch-fields input[name=stem_diameter]", "300");
  await choose("#tray-edit select[name=way]", "two");
  await choose("#tray-edit select[name=from]", `tree ${a.id}`);
  await choose("#tray-edit select[name=towards]", `tree ${b.id}`);
  await type("#tray-edit input[name=first]", (0.8 * base_m).toFixed(2));
  await type("#tray-edit input[name=second]", (0.7 * base_m).toFixed(2));
  await keys.press("Enter");
  await edited(() => press("button[form=sketch-fields]"));
  const taped = (await siteOf(page)).trees.find((tree) => tree.label === "Taped");
  assert.ok(taped?.at, "the tree was added with a place");
  const off = (to, share) => Math.abs(Math.hypot(taped.at[0] - to.at[0], taped.at[1] - to.at[1]) - share * base_m);
  assert.ok(off(a, 0.8) < 0.006 && off(b, 0.7) < 0.006, "both distances are kept");
  done("a tree added by tape");

  // 11. Switch units.
  const scale = await page.textContent(".scale");
  await choose("header [name=units]", "us");
  assert.match(await page.textContent(".scale"), /ft/);
  assert.notEqual(await page.textContent(".scale"), scale);
  done("units switched");

  // 12. Begin a report and cancel it.
  await press("[data-tray=print]");
  await press("[data-begin]");
  await page.waitForSelector("[data-job=running]", { timeout: PATIENCE });
  await press("[data-cancel]");
  await page.waitForSelector("[data-job=cancelled]", { timeout: PATIENCE });
  done("a report begun and cancelled");

  assert.deepEqual(wrong, []);
  assert.equal(task, 12);
  console.log("keyboard: all twelve tasks");
} finally {
  await browser.close();
}
