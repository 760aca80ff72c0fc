// From the pointer's move to the paint of the answer, while the trench that takes most is dragged in
// the page. A benchmark, not a test.   ROOTSTEAD_URL=http://127.0.0.1:PORT node bench/drag.mjs
import { browse, gripOf, heaviestLine, onScreen, open } from "../tests/browsing.mjs";

const base = process.env.ROOTSTEAD_URL;
if (!base) throw new Error("Set ROOTSTEAD_URL to the address that rootstead serve printed.");
const MOVES = 200;

// In the page: a trial is asked for by the newest move of the pointer; its answer is on the screen
// in the second frame after it came, when the page has taken it in and drawn.
const watchTrials = () => {
  window.steps_ = [];
  let moved = 0;
  addEventListener("pointermove", () => (moved = performance.now()), { capture: true });
  const frame = () => new Promise((done) => requestAnimationFrame(() => done()));
  const ask = window.fetch.bind(window);
  window.fetch = async (...question) => {
    const trial = String(question[0]).endsWith("/trial");
    const [pointer, asked] = [moved, performance.now()];
    const answer = await ask(...question);
    if (!trial) return answer;
    const answered = performance.now();
    void frame()
      .then(frame)
      .then(() => window.steps_.push({ server: answered - asked, paint: performance.now() - pointer }));
    return answer;
  };
};

function told(name, times) {
  const rising = [...times].sort((a, b) => a - b);
  const at = (share) => rising[Math.min(rising.length - 1, Math.floor(share * rising.length))];
  console.log(`${name.padEnd(24)} ${at(0.5).toFixed(1).padStart(8)} ${at(0.95).toFixed(1).padStart(8)}`);
}

const browser = await browse();
try {
  const { page } = await open(browser, base, { viewport: { width: 1440, height: 900 } }, watchTrials);
  const work = await heaviestLine(page);
  await page.locator(`button[data-work=${JSON.stringify(work)}]`).click();
  const [x, y] = await onScreen(page, await gripOf(page, work));
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 2, y + 2); // the first trial may have to wait until trials are ready
  await page.waitForFunction(() => window.steps_.length > 0, null, { timeout: 600_000 });
  await page.evaluate(() => (window.steps_.length = 0));
  for (let i = 1; i <= MOVES; i += 1) {
    await page.mouse.move(x + 20 * Math.sin(i / 12), y + 20 * Math.cos(i / 12));
    await page.waitForTimeout(16);
  }
  const steps = await page.evaluate(() => window.steps_);
  await page.keyboard.press("Escape");
  await page.mouse.up();
  console.log(`${steps.length} steps of ${work}; ms           p50      p95`);
  told(
    "question to answer",
    steps.map(({ server }) => server),
  );
  told(
    "move to paint",
    steps.map(({ paint }) => paint),
  );
} finally {
  await browser.close();
}
