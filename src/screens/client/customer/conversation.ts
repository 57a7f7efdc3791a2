/** What was said, in order, and which list the next number answers. */
import type { ChatMessage, ChatReply } from "../../../model/orders/chat.ts";
import { type Asked, askedIn } from "./choices.ts";

export type Line = {
  readonly id: string;
  readonly from: "customer" | "stall";
  readonly text: string;
  /** Whether the customer asked for it; the stall also speaks by itself. */
  readonly isAnswer: boolean;
};

const KEPT = 200;

/** A page's copy of a conversation. A line that comes twice, with its reply and with the history, is one line. */
export class Conversation {
  #lines: readonly Line[] = [];
  readonly #ids = new Set<string>();

  get lines(): readonly Line[] {
    return this.#lines;
  }

  has(id: string): boolean {
    return this.#ids.has(id);
  }

  #add(lines: readonly Line[]): readonly Line[] {
    const fresh = lines.filter(({ id }) => !this.#ids.has(id));
    for (const { id } of fresh) this.#ids.add(id);
    this.#lines = [...this.#lines, ...fresh].slice(-KEPT);
    return fresh;
  }

  /** Adds what the history tells; gives what is new. */
  addHistory(messages: readonly ChatMessage[]): readonly Line[] {
    const heard = new Set(messages.filter(({ from }) => from === "customer").map(({ sequence }) => sequence));
    return this.#add(
      messages.map(({ id, from, text, sequence }) => ({ id, from, text, isAnswer: heard.has(sequence) })),
    );
  }

  /** Adds a message and the stall's replies to it; gives what is new. */
  addTurn(id: string, text: string, replies: ChatReply["replies"]): readonly Line[] {
    return this.#add([
      { id, from: "customer", text, isAnswer: false },
      ...replies.map((reply): Line => ({ ...reply, from: "stall", isAnswer: true })),
    ]);
  }

  /**
   * The line whose list is open: the last one with choices, unless an answer without any came after it.
   * News that the stall sends by itself closes no list.
   */
  open(): { readonly id: string; readonly asked: Asked } | null {
    for (const line of this.#lines.toReversed()) {
      if (line.from !== "stall") continue;
      const asked = askedIn(line.text);
      if (asked.choices.length > 0) return { id: line.id, asked };
      if (line.isAnswer) return null;
    }
    return null;
  }
}
