// The server is killed in the middle of edits, again and again: whatever it had acknowledged is in
// the project when it is opened anew, and the page says what it could not send.
import assert from "node:assert/strict";
import { copyFileSync } from "node:fs";
import { browse, heaviestWork, open, settled } from "./browsing.mjs";
import { served } from "./served.mjs";

const { ROOTSTEAD_PROGRAM: program, ROOTSTEAD_PROJECT: original } = process.env;
if (!program || !original) throw new Error("Run this by tests/browser.mjs.");
const project = original.replace(".gpkg", "-killed.gpkg");
copyFileSync(original, project);
const ROUNDS = 2;

const shapeOf = (page, work) =>
  page.evaluate(
    (id) =>
      fetch("/api/site")
        .then((reply) => reply.json())
        .then((site) => site.works.find((one) => one.id === id).shape),
    work,
  );

// Moves are made until the kill cuts one off; the last shape that was acknowledged comes back.
async function movedUntilKilled(page, work, server, delay) {
  let acknowledged = null;
  page.on("response", async (reply) => {
    if (reply.request().method() !== "PUT" || reply.status() !== 200) return;
    acknowledged = JSON.parse(reply.request().postData()).shape;
  });
  const button = page.locator(`button[data-work=${JSON.stringify(work)}]`);
  await button.focus();
  await page.keyboard.press("Enter");
  await button.focus();
  await page.keyboard.press("ArrowUp");
  await settled(page, "saved");
  await page.keyboard.press("ArrowUp");
  await new Promise((resolve) => setTimeout(resolve, delay));
  await server.stop("SIGKILL");
  await page.keyboard.press("ArrowUp");
  await settled(page, "trouble");
  return acknowledged;
}

const browser = await browse();
try {
  for (let round = 0; round < ROUNDS; round += 1) {
    const server = await served(program, project);
    const { page } = await open(browser, server.url, { viewport: { width: 1440, height: 900 } });
    const work = await heaviestWork(page);
    const acknowledged = await movedUntilKilled(page, work, server, 550 + 150 * round);
    assert.ok(acknowledged, "at least one move was acknowledged before the end");
    assert.match(await page.locator("[data-said=trouble]").innerText(), /\S/, "the page says so");
    await page.context().close();

    const again = await served(program, project);
    const reopened = await open(browser, again.url, { viewport: { width: 1440, height: 900 } });
    const now = await shapeOf(reopened.page, work);
    assert.ok(near(now, acknowledged) || later(now, acknowledged), "what was acknowledged is there");
    await reopened.page.context().close();
    await again.stop("SIGTERM");
    console.log(`round ${round + 1}: killed, opened again, the acknowledged move is there`);
  }
} finally {
  await browser.close();
}

function first(shape) {
  return (shape.lines[0] ?? shape.areas[0]?.[0] ?? shape.points)[0];
}
function near(a, b) {
  return Math.hypot(first(a)[0] - first(b)[0], first(a)[1] - first(b)[1]) < 1e-6;
}
// A move may have been saved and its answer cut off: then the project is one step on, never behind.
function later(now, acknowledged) {
  return first(now)[1] > first(acknowledged)[1];
}
