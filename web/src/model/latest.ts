// Asks one question at a time. While an answer is awaited only the newest question is kept: what
// was asked in between is of no use any more.
export interface Latest<Q> {
  ask(question: Q): void;
  forget(): void; // an answer still under way is not delivered
}

export function latestWins<Q, A>(
  send: (question: Q) => Promise<A>,
  deliver: (answer: A, question: Q) => void,
  fail: (reason: unknown) => void,
): Latest<Q> {
  let waiting: { question: Q } | null = null;
  let busy = false;
  let round = 0; // answers of an earlier round are forgotten

  async function run(question: Q): Promise<void> {
    busy = true;
    const mine = round;
    try {
      const answer = await send(question);
      if (mine === round) deliver(answer, question);
    } catch (reason) {
      if (mine === round) fail(reason);
    }
    busy = false;
    next();
  }
  function next(): void {
    const held = waiting;
    waiting = null;
    if (held) void run(held.question);
  }
  return {
    ask: (question) => (busy ? void (waiting = { question }) : void run(question)),
    forget: () => {
      waiting = null;
      round += 1;
    },
  };
}
