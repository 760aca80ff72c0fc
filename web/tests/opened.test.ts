import { describe, expect, it } from "vitest";
import { opened } from "../src/model/opened";

describe("a site that is being opened", () => {
  it("tells how far it is until it is ready, and asks no more then", async () => {
    const answers = [
      { done: 0, all: 0, ready: false },
      { done: 40, all: 100, ready: false },
      { done: 100, all: 100, ready: true },
      { done: 100, all: 100, ready: true },
    ];
    const told: number[] = [];
    await opened(
      () => Promise.resolve(answers.shift()!),
      ({ done }) => told.push(done),
      { wait: () => Promise.resolve() },
    );
    expect(told).toEqual([0, 40]);
    expect(answers).toHaveLength(1);
  });
  it("leaves trouble to the one who asked", async () => {
    await expect(
      opened(
        () => Promise.reject(new Error("gone")),
        () => {},
      ),
    ).rejects.toThrow("gone");
  });
});
