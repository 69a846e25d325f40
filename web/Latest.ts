/**
 * Asks one question at a time and always ends with the newest: while an answer is under way, only the last question
 * that came in the meantime is kept. So a drag never builds up a queue.
 */
export class Latest<Q, A> {
  private readonly ask: (question: Q) => Promise<A>;
  private readonly answered: (answer: A, question: Q) => void;
  private readonly failed: (error: unknown) => void;
  /** An answer is under way. */
  busy = false;
  private waiting: { question: Q } | undefined;
  private key: string | undefined;

  constructor(ask: (question: Q) => Promise<A>, answered: (answer: A, question: Q) => void, failed: (error: unknown) => void) {
    this.ask = ask;
    this.answered = answered;
    this.failed = failed;
  }

  /** @param key says what the question depends on; the same key as last time asks nothing */
  want(key: string, question: Q): void {
    if (key === this.key) return;
    this.key = key;
    this.waiting = { question };
    if (!this.busy) void this.run();
  }

  /** The answer was thrown away: the same question is asked again when it comes. */
  forget(): void {
    this.key = undefined;
  }

  private async run(): Promise<void> {
    this.busy = true;
    while (this.waiting) {
      const { question } = this.waiting;
      this.waiting = undefined;
      try {
        this.answered(await this.ask(question), question);
      } catch (error) {
        this.failed(error);
      }
    }
    this.busy = false;
  }
}
