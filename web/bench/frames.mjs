// How smoothly a large site is drawn: times between frames while the plan is dragged and zoomed and
// the ledger scrolled, beside those of the same page standing still in the same run. A benchmark,
// not a test.   ROOTSTEAD_URL=http://127.0.0.1:PORT node bench/frames.mjs
import { browse, open } from "../tests/browsing.mjs";

const base = process.env.ROOTSTEAD_URL;
if (!base) throw new Error("Set ROOTSTEAD_URL to the address that rootstead serve printed.");
const SECONDS = 4;

const watch = (page) =>
  page.evaluate(() => {
    const frames = (window.frames_ = []);
    let last = performance.now();
    const tick = (now) => {
      frames.push(now - last);
      last = now;
      window.watching_ = requestAnimationFrame(tick);
    };
    window.watching_ = requestAnimationFrame(tick);
  });
const watched = (page) =>
  page.evaluate(() => {
    cancelAnimationFrame(window.watching_);
    // At least one, so that a page that never drew a frame is told as such and not as a fault here.
    return (window.frames_.length > 1 ? window.frames_.slice(1) : [Infinity]).sort((a, b) => a - b);
  });

function told(name, frames) {
  const at = (share) => frames[Math.min(frames.length - 1, Math.floor(share * frames.length))];
  const figure = (ms) => ms.toFixed(1).padStart(8);
  console.log(`${name.padEnd(16)} ${figure(at(0.5))} ${figure(at(0.95))} ${figure(frames.at(-1))}  ${frames.length}`);
}

async function during(page, name, act) {
  await watch(page);
  const end = Date.now() + 1000 * SECONDS;
  for (let i = 0; Date.now() < end; i += 1) await act(i);
  told(name, await watched(page));
}

const browser = await browse();
try {
  const began = Date.now();
  const { page } = await open(browser, base, { viewport: { width: 1440, height: 900 } });
  console.log(`open and drawn: ${((Date.now() - began) / 1000).toFixed(1)} s`);
  const plan = await page.locator(".ol-viewport").first().boundingBox();
  const [x, y] = [plan.x + plan.width / 2, plan.y + plan.height / 2];
  console.log("ms between frames    p50      p95      max  frames");
  await during(page, "standing still", () => page.waitForTimeout(50));
  await page.mouse.move(x, y);
  await page.mouse.down();
  await during(page, "dragging", (i) => page.mouse.move(x + 150 * Math.sin(i / 10), y + 100 * Math.cos(i / 10)));
  await page.mouse.up();
  await during(page, "zooming", async (i) => {
    await page.mouse.wheel(0, i % 20 < 10 ? -120 : 120);
    await page.waitForTimeout(30);
  });
  const ledger = await page.locator("#ledger").boundingBox();
  await page.mouse.move(ledger.x + ledger.width / 2, ledger.y + ledger.height - 40);
  await during(page, "ledger scrolled", async () => {
    await page.mouse.wheel(0, 300);
    await page.waitForTimeout(16);
  });
  const [drawn, all] = await page.evaluate(() => [
    document.querySelectorAll("tr[data-tree]").length,
    Number(document.querySelector(".ledger table").getAttribute("aria-rowcount")) - 1,
  ]);
  console.log(`ledger: ${drawn} of ${all} lines are drawn`);
} finally {
  await browser.close();
}
