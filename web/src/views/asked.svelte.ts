// One answer that is shown, and the newest question for it. An answer to an older question is
// dropped; while a newer version of the same thing is worked out the old one stays in sight.
import { Trouble } from "../api/client";

export interface Question {
  about: string; // what it is of: another thing takes the old answer away at once
  version: string; // of the project: another version only makes the answer old
}

export class Asked<A> {
  value = $state.raw<A | null>(null);
  waiting = $state(false);
  trouble = $state<{ kind: Trouble["kind"]; sentence: string } | null>(null);
  #about = "";
  #version = "";
  #send: (() => Promise<A>) | null = null;
  #round = 0;

  ask(question: Question, send: () => Promise<A>): void {
    if (question.about === this.#about && question.version === this.#version) return;
    if (question.about !== this.#about) this.value = null;
    this.#about = question.about;
    this.#version = question.version;
    this.#send = send;
    void this.#run(send);
  }
  // After a trouble the same question may be put again.
  again(): void {
    if (this.#send) void this.#run(this.#send);
  }
  clear(): void {
    this.#about = "";
    this.#version = "";
    this.#round += 1;
    this.value = null;
    this.waiting = false;
    this.trouble = null;
  }

  async #run(send: () => Promise<A>): Promise<void> {
    const mine = (this.#round += 1);
    this.waiting = true;
    this.trouble = null;
    try {
      const answer = await send();
      if (mine === this.#round) this.value = answer;
    } catch (reason) {
      if (mine === this.#round) this.#fail(reason);
    }
    if (mine === this.#round) this.waiting = false;
  }
  #fail(reason: unknown): void {
    const { kind, sentence } = reason instanceof Trouble ? reason : new Trouble("broken", String(reason));
    this.value = null; // an old picture beside a trouble would be taken for the new one
    this.trouble = { kind, sentence };
  }
}
