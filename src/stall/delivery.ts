/** Sending the texts that are due. */
import { type GatewaySettings, type Sent, sendText } from "../texting/gateway.ts";
import { dueTexts, nextAttempt } from "../texting/outbox.ts";
import type { Books } from "./books.ts";
import { countTexts, remember } from "./conversing.ts";
import type { Instant } from "./facts.ts";
import { stageOf } from "./orders.ts";
import type { OutRow } from "./people.ts";
import { conversationOf } from "./telling.ts";

/** Texts sent in one ringing of the alarm, and how many at once: within the platform's limits. */
const SENDS_PER_ALARM = 40;
const SENDS_AT_ONCE = 5;

/** Whether a text has been overtaken: "ready" is worth nothing once the order is handed over or spoiled. */
function overtaken(books: Books, row: OutRow): boolean {
  if (row.whileReady === null) return false;
  const order = books.state.order(row.whileReady);
  return order === undefined || stageOf(order) !== "ready";
}

/** What is due and still worth sending; texts to be read on the web are delivered here and now. */
export function takeDue(books: Books, now: Instant): readonly OutRow[] {
  const { menu } = books.state;
  if (menu === null) return [];
  const due = dueTexts(books.people.out.values(), now, SENDS_PER_ALARM);
  return due.filter((row) => {
    if (overtaken(books, row)) {
      books.people.out.delete(row.id);
      return false;
    }
    if (row.to !== null) return true;
    const said = { id: row.id, text: null, replies: [row.text], order: null };
    remember(books, row.customer, conversationOf(books, menu, row.customer), said);
    books.people.out.delete(row.id);
    return false;
  });
}

/** Hands texts to the gateway, a few at a time, in order for each customer; `after` hears of each result. */
export async function send(
  settings: GatewaySettings,
  rows: readonly OutRow[],
  after: (row: OutRow, sent: Sent) => void,
): Promise<void> {
  const lanes = new Map<string, OutRow[]>();
  for (const row of rows) lanes.set(row.customer, [...(lanes.get(row.customer) ?? []), row]);
  const queue = [...lanes.values()];
  const worker = async (): Promise<void> => {
    for (let lane = queue.shift(); lane !== undefined; lane = queue.shift()) {
      for (const row of lane) {
        if (row.to === null) continue;
        const sent = await sendText(settings, { id: row.id, to: row.to, text: row.text });
        after(row, sent);
        // The next text to the same customer must not arrive before this one.
        if (sent.how === "later") break;
      }
    }
  };
  await Promise.all(Array.from({ length: SENDS_AT_ONCE }, worker));
}

/** Puts down how a text fared: gone, due again later, or given up. */
export function settleText(books: Books, row: OutRow, sent: Sent, now: Instant, chance: number): void {
  const { out, untold } = books.people;
  if (out.get(row.id) === undefined) return;
  if (sent.how === "sent") {
    out.delete(row.id);
    countTexts(books, now, 0, 1);
    return;
  }
  const dueAt = sent.how === "later" ? nextAttempt(row, now, chance, sent.retryAfter) : null;
  if (dueAt !== null) {
    out.set(row.id, { ...row, attempts: row.attempts + 1, dueAt });
    return;
  }
  out.delete(row.id);
  if (row.whileReady !== null) untold.set(String(row.whileReady), true);
}
