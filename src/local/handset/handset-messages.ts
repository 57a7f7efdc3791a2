/** The messages of the pretend phones: bounded, in memory. */

export type PhoneMessage = {
  readonly id: string;
  readonly from: "phone" | "stall";
  readonly text: string;
  readonly at: string;
  /** The number of text segments, and their alphabet. */
  readonly parts: number;
  readonly alphabet: "GSM-7" | "UCS-2";
  /** Why it was refused; null if it was accepted. */
  readonly refused: string | null;
};

const MOST_PHONES = 100;
const MOST_MESSAGES = 60;

export class HandsetMessages {
  /** The phone that was used last is the last. */
  readonly #phones = new Map<string, readonly PhoneMessage[]>();
  #version = 0;

  /** Grows with every change. */
  get version(): number {
    return this.#version;
  }

  of(number: string): readonly PhoneMessage[] {
    return this.#phones.get(number) ?? [];
  }

  /** Adds a message, or puts it in the place of the one with its id, so that a repeat is one message. */
  put(number: string, message: PhoneMessage): void {
    const before = this.of(number);
    const known = before.some(({ id }) => id === message.id);
    const after = known
      ? before.map((one) => (one.id === message.id ? { ...message, at: one.at } : one))
      : [...before, message].slice(-MOST_MESSAGES);
    this.#phones.delete(number);
    this.#phones.set(number, after);
    const [longestUnused] = this.#phones.keys();
    if (this.#phones.size > MOST_PHONES && longestUnused !== undefined) this.#phones.delete(longestUnused);
    this.#version += 1;
  }
}
