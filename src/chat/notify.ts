import type { ChatOrder, Counter } from "./counter.ts";
import type { Talk } from "./talk.ts";

export type Notice = { readonly kind: "ready" | "late" | "short" | "dropped"; readonly order: ChatOrder };

export function notify(_counter: Counter, talk: Talk, notice: Notice): { talk: Talk; text: string } {
  return { talk, text: `${notice.kind} ${notice.order.number}` };
}
