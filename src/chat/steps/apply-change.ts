/** Changes an order, and says what it is then or why it cannot be changed. */
import { ok, type Result, refused } from "../../model/basics/result.ts";
import type { Refusal } from "../../model/orders/refusal.ts";
import type { ChatChange, Garment, OrderingPort } from "../talk/ordering-port.ts";
import { type BasketLine, IDLE, NO_LIST, type Talk } from "../talk/talk.ts";
import { savedBy } from "../wording/bundles-said.ts";
import { sentencesOf } from "../wording/languages.ts";
import { billOf, price } from "../wording/price.ts";
import { factsOf, knownOf } from "../wording/say-names.ts";
import type { WithoutWords } from "./refused.ts";
import type { TurnAnswer } from "./turn.ts";

/** The answer to a change of an order. If a garment is sold out, the refusal is returned: the caller offers others. */
export type Applied = Result<TurnAnswer, Extract<Refusal, { readonly code: "sold-out" }>>;

/** The changes that make one kind of garment in an order another one, or another number of it. */
export function changesTo(
  { wanted, quantity: had }: NonNullable<Talk["changing"]>,
  { each: _, ...line }: BasketLine,
): readonly ChatChange[] {
  if (wanted === null) return [{ type: "add", line }];
  const { quantity, ...instead } = line;
  const same = wanted.offer === line.offer && wanted.colour === line.colour && wanted.size === line.size;
  const kept = Math.min(had, quantity);
  return [
    ...(same || kept === 0 ? [] : [{ type: "instead", wanted, quantity: kept, instead } as const]),
    ...(quantity > had ? [{ type: "add", line: { ...line, quantity: quantity - had } } as const] : []),
    ...(quantity < had ? [{ type: "take-off", wanted, quantity: had - quantity } as const] : []),
  ];
}

/** The talk with nothing being changed any more. */
export function changedTalk({ changing: _, ...talk }: Talk): Talk {
  return { ...talk, step: IDLE, list: NO_LIST };
}

/** Applies changes to an order, all or none. */
export function applyChanges(
  port: OrderingPort,
  talk: Talk,
  number: number,
  changes: readonly ChatChange[],
): Applied {
  const sentences = sentencesOf(port, talk);
  const over = changedTalk(talk);
  const before = port.orders().find((order) => order.number === number);
  const outcome = port.attempt({ type: "change", number, changes });
  const order = port.orders().find((other) => other.number === number);
  if (!outcome.ok) {
    if (outcome.refusal.code === "sold-out") return refused(outcome.refusal);
    const say = sentences.cannotChange({ number, why: whyNot(outcome.refusal, before?.stage ?? null) });
    return ok({ talk: over, say });
  }
  if (order === undefined) throw new Error(`order ${number} is gone after it was changed`);
  const sum = (amount: number | undefined): string | null =>
    amount === undefined ? null : price(port.menu, amount);
  const say = sentences.orderChanged({
    order: factsOf(port, order),
    lines: order.lines.map((line) => knownOf(port.menu, talk.language, line)),
    bill: billOf(port.menu, order),
    saved: savedBy(port.menu, talk.language, order),
    due: sum(order.due),
    giveBack: sum(order.giveBack),
    added: changes.some(({ type }) => type === "add"),
  });
  return ok({ talk: over, say });
}

/** Takes garments of one kind off an order. */
export function takenOff(
  port: OrderingPort,
  talk: Talk,
  number: number,
  wanted: Garment,
  quantity: number,
): TurnAnswer {
  const applied = applyChanges(port, talk, number, [{ type: "take-off", wanted, quantity }]);
  if (!applied.ok) throw new Error("nothing is sold out that is taken off");
  return applied.value;
}

/** The reason given to the customer. */
type WhyNotChanged = "on-press" | "ready" | "all-of-it" | "too-many" | "closed" | "over" | "sorry";

function whyNot(refusal: Refusal, stage: string | null): WhyNotChanged {
  switch (refusal.code) {
    case "on-press":
      return "on-press";
    case "wrong-stage":
      if (refusal.needs === "dropped as a whole") return "all-of-it";
      return stage === "ready" ? "ready" : "on-press";
    case "no-such-job":
      return "on-press";
    case "no-such-order":
      return "over";
    case "too-many":
      return "too-many";
    case "not-open":
    case "paused":
    case "fair-stopped":
    case "line-too-long":
      return "closed";
    default:
      refusal.code satisfies WithoutWords | "web-off" | "web-share";
      return "sorry";
  }
}
