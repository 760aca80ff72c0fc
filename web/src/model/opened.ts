// A large site takes a while to be assessed; the page is there before it.
import type { Opening } from "../api/names";

export interface Clock {
  wait(ms: number): Promise<void>;
}
const real: Clock = { wait: (ms) => new Promise((done) => setTimeout(done, ms)) };
const EVERY_MS = 400;

// Resolves once the site can be asked for; until then tells how far it is. Trouble is the caller's.
export async function opened(
  ask: () => Promise<Opening>,
  told: (how: Opening) => void,
  clock: Clock = real,
): Promise<void> {
  for (;;) {
    const how = await ask();
    if (how.ready) return;
    told(how);
    await clock.wait(EVERY_MS);
  }
}
