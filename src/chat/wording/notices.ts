/** The texts that a stall sends unasked. */
import type { CrewSentence } from "../../model/orders/crew-sentences.ts";
import { fitted, isSmall, type Say } from "../fitting/fit.ts";
import { nearest } from "../talk/nearest.ts";
import type { ChatOrder, Garment, OrderingPort } from "../talk/ordering-port.ts";
import { priceIn } from "../talk/range.ts";
import { type Choice, EMPTY_DRAFT, type Talk } from "../talk/talk.ts";
import { itemsOf } from "./items.ts";
import { sentencesOf } from "./languages.ts";
import { price } from "./price.ts";
import { factsOf, knownOf, timeOf } from "./say-names.ts";
import { signed } from "./signed.ts";

export type Notice =
  /** `owed` is the amount due at hand-over, in minor units; 0 if none. */
  | { readonly type: "ready"; readonly order: ChatOrder; readonly owed: number }
  | { readonly type: "late"; readonly order: ChatOrder }
  /** Its payment was noted, so it is in line now. */
  | { readonly type: "paid"; readonly order: ChatOrder }
  /** Garments of it lack a blank or a transfer. */
  | { readonly type: "short"; readonly order: ChatOrder; readonly paid: boolean }
  /** The stall gave it up. */
  | {
      readonly type: "dropped";
      readonly order: ChatOrder;
      readonly why: "unpaid" | "unclaimed" | "stock-gone" | "as-asked";
    }
  /** The customer wanted to drop it, but a press had begun it. */
  | { readonly type: "not-dropped"; readonly order: ChatOrder }
  /** The crew says something to its customer. */
  | { readonly type: "from-crew"; readonly order: ChatOrder; readonly said: CrewSentence }
  /** It is ready and the stall closes soon. */
  | { readonly type: "closing-soon"; readonly order: ChatOrder; readonly closes: number };

/**
 * The text of a notice. Only "short" sends a list, which the next bare number answers; the customer's own step is kept.
 * Empty if the customer wants no such text.
 */
export function notify(
  port: OrderingPort,
  talk: Talk,
  notice: Notice,
  channel: "text" | "web" = "text",
): { readonly talk: Talk; readonly text: string } {
  if (talk.optedOut && channel === "text") return { talk, text: "" };
  const { talk: after, say } = noticed(port, talk, notice);
  return {
    talk: after,
    text: channel === "text" ? fitted(signed(port, say), isSmall(port.menu)) : say(0),
  };
}

function noticed(port: OrderingPort, talk: Talk, notice: Notice): { readonly talk: Talk; readonly say: Say } {
  const sentences = sentencesOf(port, talk);
  const order = factsOf(port, notice.order);
  switch (notice.type) {
    case "ready": {
      const toPay = notice.owed > 0 ? price(port.menu, notice.owed) : null;
      return { talk, say: sentences.ready({ order, toPay }) };
    }
    case "late":
      return { talk, say: sentences.late({ order }) };
    case "paid":
      return { talk, say: sentences.paid({ order }) };
    case "short":
      return shortNotice(port, talk, notice.order, notice.paid);
    case "dropped":
      return { talk, say: sentences.gaveUp({ number: order.number, why: notice.why }) };
    case "not-dropped":
      return { talk, say: sentences.cannotDrop({ number: order.number, stage: "pressing" }) };
    case "from-crew": {
      const { opening } = port;
      const closes = opening.open ? timeOf(port, talk, opening.closes) : null;
      return { talk, say: sentences.fromCrew({ number: order.number, said: notice.said, closes }) };
    }
    case "closing-soon":
      return { talk, say: sentences.closingSoon({ order, closes: timeOf(port, talk, notice.closes) }) };
    default:
      return notice satisfies never;
  }
}

const MOST_INSTEAD = 3;

/**
 * The substitutes for a short garment: anything, as a new order, if the order has only that kind and is not paid; else
 * garments of the same price in its place, so that no money moves.
 */
function insteadOf(port: OrderingPort, talk: Talk, order: ChatOrder, paid: boolean): readonly Choice[] {
  const [line] = order.short;
  if (line === undefined) return [];
  const { number } = order;
  const { offer, colour, size, each, quantity } = line;
  const near = nearest(port, talk.basket, line, quantity);
  const draftOf = (garment: Garment) => ({ ...EMPTY_DRAFT, ...garment, quantity });
  const whole = order.lines.length === 1 && order.lines[0]?.quantity === quantity;
  if (whole && !paid)
    return near
      .slice(0, MOST_INSTEAD)
      .map((garment): Choice => ({ take: "swap", number, draft: draftOf(garment) }));
  return near
    .filter((garment) => priceIn(port.menu, garment) === each)
    .slice(0, MOST_INSTEAD)
    .map((garment): Choice => {
      const wanted = { offer, colour, size };
      return { take: "instead", number, wanted, draft: { ...draftOf(garment), ...garment }, paid };
    });
}

/**
 * A short order: the substitutes; to wait; or to remove the garment (drop the order if nothing else is in it), with the
 * money back.
 */
export function shortNotice(
  port: OrderingPort,
  talk: Talk,
  order: ChatOrder,
  paid: boolean,
): { readonly talk: Talk; readonly say: Say } {
  const sentences = sentencesOf(port, talk);
  const swaps = insteadOf(port, talk, order, paid);
  const { number } = order;
  // The rest of the order goes on without the short garments.
  const all = order.shortGarments >= order.lines.reduce((sum, { quantity }) => sum + quantity, 0);
  const lastChoice: Choice = all ? { take: "drop-order", number } : { take: "leave-out", number };
  const picks: readonly Choice[] = [...swaps, { take: "keep", number }, lastChoice];
  const [line, ...others] = order.short;
  const wanted = line === undefined || others.length > 0 ? null : { ...EMPTY_DRAFT, ...line };
  const last = all ? sentences.dropIt() : sentences.leaveOut();
  const lastItem = { name: paid ? `${last}, ${sentences.moneyBack()}` : last };
  const items = itemsOf(port, talk, picks, wanted ?? EMPTY_DRAFT).map((item, index) =>
    index === picks.length - 1 ? { number: item.number, ...lastItem } : item,
  );
  return {
    talk: { ...talk, list: { of: "picks", picks } },
    say: sentences.short({
      order: factsOf(port, order),
      what: wanted === null ? null : knownOf(port.menu, talk.language, wanted),
      items,
      instead: swaps.length > 0,
      paid,
    }),
  };
}
