// What browser tests share: the browser, a page that minds every error, and axe.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import assert from "node:assert/strict";
import { chromium } from "playwright-core";

export const PATIENCE = Number(process.env.ROOTSTEAD_PATIENCE_MS ?? 60_000);
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const ARGS = [
  "--headless",
  "--no-sandbox",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export const browse = () =>
  chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ARGS });

// `wrong` collects what a person would never see: errors, and questions to anybody else.
// `before` runs in the page before anything of it.
export async function open(browser, base, options, before) {
  const context = await browser.newContext({ locale: "en-GB", ...options });
  const page = await context.newPage();
  if (before) await page.addInitScript(before);
  const wrong = [];
  const foreign = (url) => new URL(url).origin !== new URL(base).origin && !/^(data|blob):/.test(url);
  page.on("pageerror", (error) => wrong.push(error.message));
  page.on("console", (message) => message.type() === "error" && wrong.push(message.text()));
  page.on("request", (request) => foreign(request.url()) && wrong.push(`asked elsewhere: ${request.url()}`));
  await page.goto(base);
  await page.waitForSelector("tr[data-tree]", { timeout: PATIENCE });
  return { page, wrong };
}

export const settled = (page, said) => page.waitForSelector(`[data-said="${said}"]`, { timeout: PATIENCE });

// What the ledger says, tree by tree. Only lines in sight are drawn, so it is scrolled through.
export const ledger = (page) =>
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

export async function clean(page, name) {
  // Run in the page's own world by the debugger, which the content policy does not hold up.
  await page.evaluate(axe);
  const { violations, passes } = await page.evaluate((values) => window.axe.run(document, { runOnly: values }), RULES);
  for (const { id, help, nodes } of violations)
    console.log(`axe ${name}: ${id}: ${help}\n  ${nodes.map((node) => node.html.slice(0, 160)).join("\n  ")}`);
  console.log(`axe ${name}: ${violations.length} violations, ${passes.length} checks passed`);
  assert.equal(violations.length, 0);
}

export async function noSideways(page) {
  const [inner, outer] = await page.evaluate(() => {
    const parts = [document.documentElement, document.querySelector(".page")];
    return [Math.max(...parts.map((part) => part.scrollWidth)), innerWidth];
  });
  assert.ok(inner <= outer, `nothing lies beyond the side of the page (${inner} of ${outer})`);
}

// The movable work that takes most of any tree: there both answers have room to change.
export async function heaviestWork(page, wanted = () => true) {
  const [site, assessment] = await page.evaluate(() =>
    Promise.all(["site", "assessment"].map((name) => fetch(`/api/${name}`).then((reply) => reply.json()))),
  );
  const movable = new Set(site.works.filter((work) => work.movable && wanted(work)).map((work) => work.id));
  const parts = assessment.trees.flatMap((tree) => tree.by_work).filter((part) => movable.has(part.work));
  return parts.sort((a, b) => (b.absorbing_loss?.best ?? 0) - (a.absorbing_loss?.best ?? 0))[0]?.work;
}

// Where a place of the site lies on the screen, by what the plan says of its view.
export async function onScreen(page, [x, y]) {
  const plan = page.locator("section.plan");
  const box = await plan.locator(".paper").boundingBox();
  const metres = Number(await plan.getAttribute("data-metres-per-pixel"));
  const [east, north] = (await plan.getAttribute("data-centre")).split(" ").map(Number);
  return [box.x + box.width / 2 + (x - east) / metres, box.y + box.height / 2 - (y - north) / metres];
}

// A place to take hold of a work drawn as a line: the middle of its longest part, far from corners.
export async function gripOf(page, work) {
  const site = await page.evaluate(() => fetch("/api/site").then((reply) => reply.json()));
  const { shape } = site.works.find(({ id }) => id === work);
  const parts = shape.lines.flatMap((line) => line.slice(1).map((end, i) => [line[i], end]));
  const long = ([a, b]) => Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [a, b] = parts.sort((one, other) => long(other) - long(one))[0];
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

// The movable work drawn as a line that takes most of any tree.
export const heaviestLine = (page) => heaviestWork(page, (work) => work.shape.lines.length > 0);
