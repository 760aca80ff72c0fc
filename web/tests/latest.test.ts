import { expect, test } from "vitest";
import { latestWins } from "../src/model/latest";

// A server whose answers come when the test says so.
function slowServer() {
  const open: { question: number; answer: (a: string) => void; refuse: (r: Error) => void }[] = [];
  const send = (question: number) => new Promise<string>((answer, refuse) => open.push({ question, answer, refuse }));
  return { open, send };
}
const soon = () => new Promise((resolve) => setTimeout(resolve));

function setUp() {
  const { open, send } = slowServer();
  const delivered: string[] = [];
  const failed: unknown[] = [];
  const latest = latestWins(
    send,
    (answer) => delivered.push(answer),
    (reason) => failed.push(reason),
  );
  return { open, delivered, failed, latest };
}

test("only one question is under way and the newest comes next", async () => {
  const { open, delivered, latest } = setUp();
  for (const question of [1, 2, 3, 4]) latest.ask(question);
  expect(open.map((one) => one.question)).toEqual([1]);
  open[0]!.answer("to 1");
  await soon();
  expect(open.map((one) => one.question)).toEqual([1, 4]);
  open[1]!.answer("to 4");
  await soon();
  expect(delivered).toEqual(["to 1", "to 4"]);
});

test("a forgotten question is not delivered, and the next one is", async () => {
  const { open, delivered, latest } = setUp();
  latest.ask(1);
  latest.ask(2);
  latest.forget();
  open[0]!.answer("to 1");
  await soon();
  expect(open).toHaveLength(1);
  latest.ask(3);
  open[1]!.answer("to 3");
  await soon();
  expect(delivered).toEqual(["to 3"]);
});

test("a failure is told and does not stop the next question", async () => {
  const { open, delivered, failed, latest } = setUp();
  latest.ask(1);
  latest.ask(2);
  open[0]!.refuse(new Error("no"));
  await soon();
  open[1]!.answer("to 2");
  await soon();
  expect(failed).toHaveLength(1);
  expect(delivered).toEqual(["to 2"]);
});
