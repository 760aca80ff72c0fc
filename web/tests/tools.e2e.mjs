// The tools of the page in a real browser: works are added, changed, split and taken away, places
// told by tape, distances measured, changes listed, a file looked over and added, a report begun,
// cancelled and made, a scan laid under the plan; axe looks at each.
import assert from "node:assert/strict";
import { PATIENCE, browse, clean, noSideways, open as openIn, settled } from "./browsing.mjs";

const base = process.env.ROOTSTEAD_URL;
if (!base) throw new Error("Set ROOTSTEAD_URL to the address that rootstead serve printed.");
const browser = await browse();
const open = (options) => openIn(browser, base, options);
const siteOf = (page) => page.evaluate(() => fetch("/api/site").then((reply) => reply.json()));
const placed = (site) => site.trees.filter((tree) => tree.at);
const tray = async (page, name) => {
  const button = page.locator(`[data-tray=${name}]`);
  if ((await button.getAttribute("aria-expanded")) !== "true") await button.click();
};
// Waits for what the act sends to be answered, and for the page to show it.
async function acted(page, path, act, status = 200) {
  const answered = page.waitForResponse(
    (reply) => new URL(reply.url()).pathname === path && reply.request().method() === "POST",
    { timeout: PATIENCE },
  );
  await act();
  const reply = await answered;
  assert.equal(reply.status(), status, await reply.text());
  if (status === 200 && path !== "/api/imports/preview") await settled(page, "edited");
}
const edited = (page, act, status) => acted(page, "/api/edits", act, status);
const saveButton = (page) => page.getByRole("button", { name: "Save", exact: true });

async function typePlace(form, x, y) {
  await form.locator("select[name=way]").selectOption("grid");
  await form.locator("input[name=x]").fill(String(x));
  await form.locator("input[name=y]").fill(String(y));
  await form.locator("input[name=y]").press("Enter");
}

async function worksEdited(page) {
  const start = await siteOf(page);
  const [x, y] = placed(start)[0].at;
  await tray(page, "edit");
  await page.click("[data-add=work]");
  await page.selectOption("#sketch-fields select[name=kind]", "trench");
  await page.fill("#sketch-fields input[name=name]", "Test cable");
  await page.fill("#sketch-fields input[name=width]", "0.4");
  await page.fill("#sketch-fields input[name=depth]", "0");
  const form = page.locator("#tray-edit form.place");
  await typePlace(form, x + 2, y - 6);
  await form.locator("select[name=way]").selectOption("offset");
  await form.locator("input[name=first]").fill("0");
  await form.locator("input[name=second]").fill("12");
  await form.locator("input[name=second]").press("Enter");
  await clean(page, "the form of a new work");
  await edited(page, () => saveButton(page).click(), 400);
  await page.waitForSelector("[data-refused=true]");
  assert.ok((await page.textContent("[data-refused=true]")).length > 20, "the server's sentence stands at the form");
  await page.fill("#sketch-fields input[name=depth]", "0.9");
  await edited(page, () => saveButton(page).click());
  const added = (await siteOf(page)).works.find((work) => work.name === "Test cable");
  assert.ok(added, "the work was added");
  assert.ok(Math.abs(added.depth_m - 0.9) < 1e-9, "a bare number has the unit of the switch");
  assert.deepEqual(
    added.shape.lines[0].map(([, north]) => Math.round(100 * (north - y))),
    [-600, 600],
  );

  await page.click("[data-split]");
  await page.fill("input[name=along]", "5");
  await edited(page, () => page.getByRole("button", { name: "Split", exact: true }).last().click());
  const split = (await siteOf(page)).works;
  assert.equal(split.length, start.works.length + 2, "one work became two");
  await edited(page, () => page.click("[data-remove=work]"));
  assert.equal((await siteOf(page)).works.length, start.works.length + 1);
  for (let i = 0; i < 3; i += 1) await edited(page, () => page.keyboard.press("Control+z"));
  const ids = (site) => site.works.map((work) => work.id).sort();
  assert.deepEqual(ids(await siteOf(page)), ids(start), "undo takes back what was taken away, split and added");
  for (let i = 0; i < 3; i += 1) await edited(page, () => page.keyboard.press("Control+Shift+z"));
  assert.equal((await siteOf(page)).works.length, start.works.length + 1, "redo makes it again");
  console.log("works: added, refused, split, taken away, undone and redone");
}

async function drawnByPointer(page) {
  await tray(page, "edit");
  await page.click("[data-add=barrier]");
  await page.locator("#tray-edit").getByRole("button", { name: "Draw on the plan" }).click();
  const box = await page.locator(".paper").boundingBox();
  for (const [dx, dy] of [
    [0.4, 0.5],
    [0.5, 0.55],
    [0.6, 0.5],
  ])
    await page.mouse.click(box.x + dx * box.width, box.y + dy * box.height);
  await page.waitForFunction(() => document.querySelectorAll(".corners tbody tr").length === 3);
  await page.getByRole("button", { name: "Take away corner 2" }).click();
  assert.equal(await page.locator(".corners tbody tr").count(), 2, "a corner is taken away");
  await page.getByRole("button", { name: "Leave without saving" }).click();
  console.log("a line was drawn by pointer, a corner taken away");
}

async function otherPage(page) {
  const other = await open({ viewport: { width: 1024, height: 800 } });
  const site = await siteOf(page);
  const work = site.works.find((one) => one.movable && one.depth_m > 0);
  const form = async (where, depth) => {
    await where.locator(`button[data-work=${JSON.stringify(work.id)}]`).click();
    await tray(where, "edit");
    await where.click("[data-change=work]");
    await where.fill("#sketch-fields input[name=depth]", depth);
  };
  await form(other.page, "1.31 m");
  await form(page, "1.47 m");
  await edited(page, () => saveButton(page).click());
  await edited(other.page, () => saveButton(other.page).click(), 409);
  await other.page.waitForSelector(".clash");
  assert.match(await other.page.textContent(".clash"), /1\.31.*1\.47/, "both depths are named");
  assert.equal(await other.page.inputValue("#sketch-fields input[name=depth]"), "1.31 m", "nothing typed is lost");
  await clean(other.page, "a conflict");
  await other.page.getByRole("button", { name: "Take theirs" }).click();
  assert.equal(await other.page.inputValue("#sketch-fields input[name=depth]"), "1.47 m");
  await other.page.context().close();
  await edited(page, () => page.keyboard.press("Control+z"));
  console.log("two pages: the conflict names both sides");
}

async function measured(page) {
  const [a, b] = placed(await siteOf(page));
  await tray(page, "measure");
  const form = page.locator("#tray-measure form.place");
  await form.locator("select[name=way]").selectOption("known");
  for (const tree of [a, b]) {
    await form.locator("select[name=from]").selectOption(`tree ${tree.id}`);
    await form.getByRole("button").click();
  }
  const run = Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]);
  assert.ok((await page.textContent("[data-measured]")).startsWith(run.toFixed(2)), "stem to stem");
  await page.selectOption("header select >> nth=0", "us");
  assert.ok((await page.textContent("[data-measured]")).includes((run / 0.3048).toFixed(1)), "the switch holds");
  await page.selectOption("header select >> nth=0", "metric");
  await clean(page, "measuring");
  console.log(`measured: ${run.toFixed(2)} m`);
}

async function changesListed(page) {
  await tray(page, "changes");
  const named = await page.locator("[data-changed]").allTextContents();
  assert.ok(
    named.some((text) => text.includes("Test cable") && text.includes("added")),
    named.join(" | "),
  );
  assert.ok((await page.locator("[data-tree-changed]").count()) > 0, "trees whose answers changed are listed");
  await clean(page, "changes");
}

async function fileAdded(page) {
  const site = await siteOf(page);
  const [x, y] = placed(site)[0].at;
  const row = (n) => `New ${n},${(y + 3 * n).toFixed(2)},${(x + 2 * n).toFixed(2)},4${n}`; // x and y exchanged
  const csv = `tag,easting,northing,dbh_cm\n${[1, 2, 3].map(row).join("\n")}\n`;
  await tray(page, "import");
  await acted(page, "/api/imports/preview", () =>
    page.setInputFiles("#tray-import input[type=file]", {
      name: "more.csv",
      mimeType: "text/csv",
      buffer: Buffer.from(csv),
    }),
  );
  await page.waitForSelector("#tray-import [data-doubt], #tray-import details li");
  const seen = await page.textContent("#tray-import");
  assert.match(seen, /exchanged|swapped|outside|far from/, "the wrong order of columns is said");
  await clean(page, "a file looked over");
  await acted(page, "/api/imports/preview", () => page.getByRole("button", { name: "Exchange x and y" }).click());
  await page.waitForFunction(() => document.querySelectorAll("#tray-import [data-doubt]").length === 0);
  await acted(page, "/api/imports", () => page.click("[data-import-add]"));
  await page.waitForSelector("[data-added]");
  assert.equal((await siteOf(page)).trees.length, site.trees.length + 3, "three trees were added");
  await edited(page, () => page.keyboard.press("Control+z"));
  assert.equal((await siteOf(page)).trees.length, site.trees.length, "undo takes the file's trees away");
  console.log("a file: its wrong order was said, put right, added and undone");
}

async function printed(page) {
  await tray(page, "print");
  await page.selectOption("#tray-print select[name=sheet]", "a4");
  await page.click("[data-begin]");
  await page.waitForSelector("[data-job=running]");
  await clean(page, "a report under way");
  await page.click("[data-cancel]");
  await page.waitForSelector("[data-job=cancelled]", { timeout: PATIENCE });
  assert.equal(await page.locator("#tray-print a[download]").count(), 0);
  await page.selectOption("#tray-print select[name=what]", "export");
  await page.selectOption("#tray-print select[name=format]", "geojson");
  await page.click("[data-begin]");
  await page.waitForSelector("[data-job=done]", { timeout: 5 * PATIENCE });
  const links = page.locator("#tray-print a[download]");
  assert.ok((await links.count()) > 0, "there are files");
  await clean(page, "files made");
  console.log(`a report cancelled, an export made: ${(await links.allTextContents()).join(", ")}`);
}

async function scanLaid(page) {
  const [a, b] = placed(await siteOf(page));
  const png = await page.evaluate(() => {
    const canvas = Object.assign(document.createElement("canvas"), { width: 400, height: 300 });
    const pen = canvas.getContext("2d");
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, 400, 300);
    pen.strokeRect(20, 20, 360, 260);
    return canvas.toDataURL("image/png").split(",")[1];
  });
  await tray(page, "underlay");
  await page.setInputFiles("#tray-underlay input[type=file]", {
    name: "scan.png",
    mimeType: "image/png",
    buffer: Buffer.from(png, "base64"),
  });
  const panel = page.locator("#tray-underlay");
  const pixel = async (pin, right, down) => {
    await panel.locator(`input[name=pin][value=${pin}]`).check();
    await panel.locator("input[name=px]").fill(String(right));
    await panel.locator("input[name=px]").press("Tab");
    await panel.locator("input[name=py]").fill(String(down));
    await panel.locator("input[name=py]").press("Tab");
  };
  for (const [pin, right, tree] of [
    ["A", 50, a],
    ["B", 350, b],
  ]) {
    await pixel(pin, right, 150);
    await panel.locator("select[name=way]").selectOption("known");
    await panel.locator("select[name=from]").selectOption(`tree ${tree.id}`);
    await panel.getByRole("button", { name: `This is pin ${pin}` }).click();
  }
  await pixel("C", 50, 50);
  await pixel("D", 50, 250);
  const real = (Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) * 200) / 300;
  await panel.locator("input[name=measured-cd]").fill((real - 0.5).toFixed(3));
  await page.waitForSelector("[data-fit=checked]");
  assert.match(await page.textContent("[data-fit]"), /\+0\.50/, "the misfit is told");
  await clean(page, "a scan being placed");
  await page.click("[data-lay]");
  await page.waitForSelector('[data-sheet="scan.png"]');
  await page.reload();
  await page.waitForSelector("tr[data-tree]");
  await tray(page, "underlay");
  await page.waitForSelector('[data-sheet="scan.png"]');
  assert.equal(await page.getAttribute("[data-kept]", "data-kept"), "true");
  await clean(page, "an underlay");
  console.log("a scan was placed, checked and kept");
}

try {
  const { page, wrong } = await open({ viewport: { width: 1440, height: 900 } });
  await worksEdited(page);
  await drawnByPointer(page);
  await otherPage(page);
  await measured(page);
  await changesListed(page);
  await fileAdded(page);
  await printed(page);
  await scanLaid(page);
  // A refusal and a conflict are what was asked for; the browser names them on its console.
  const unasked = wrong.filter((text) => !/status of (400|409)/.test(text));
  assert.deepEqual(unasked, []);
  for (const [width, colorScheme] of [
    [320, "light"],
    [390, "dark"],
    [1024, "dark"],
  ]) {
    const other = await open({ viewport: { width, height: 844 }, colorScheme });
    for (const name of ["edit", "measure", "changes", "import", "print", "underlay"]) {
      await tray(other.page, name);
      if (name === "edit") await other.page.click("[data-add=work]");
      await other.page.waitForTimeout(200);
      await noSideways(other.page);
    }
    await tray(other.page, "edit");
    await clean(other.page, `tools ${width}, ${colorScheme}`);
    assert.deepEqual(other.wrong, []);
    await other.page.context().close();
  }
  console.log("tools: all seen");
} finally {
  await browser.close();
}
