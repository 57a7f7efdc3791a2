/**
 * The conversation as a customer will have it in texts, from the menu as it is being edited: the stall's own
 * rules run in this page on an invented stall, so nothing is said here that the real stall would not say.
 */
import { type Segments, segments } from "../../../../chat/fitting/segments.ts";
import type { CustomerId, FairId, StallId } from "../../../../model/basics/ids.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { PhoneNumber } from "../../../../model/orders/order.ts";
import type { StockView } from "../../../../model/orders/stock.ts";
import { stockToTry } from "../../../../stall/calls/rehearsal-twin.ts";
import { answerMessage } from "../../../../stall/messages/conversation.ts";
import { conversationOf } from "../../../../stall/messages/kept-turns.ts";
import { UnitOfWork } from "../../../../stall/storage/unit-of-work.ts";

export type Said = {
  readonly from: "customer" | "stall";
  readonly text: string;
  readonly size: Segments;
};

const HOUR = 3_600_000;
const CUSTOMER = "somebody-trying-it" as CustomerId; // an opaque id of this page's own
const NUMBER = "+12125550100" as PhoneNumber; // from the numbers kept for fiction
const AFTER_CHOICE = "1";
const LONGEST = 9;

/** Nothing is ever written, so nothing is ever read back. */
const NOWHERE = { get: () => undefined, put: () => undefined, delete: () => false, list: () => [] };

export type Trial = {
  /** The stall's name. */
  readonly name: string;
  readonly stock: StockView | null;
  readonly texts: readonly string[];
  readonly now: number;
};

/** The texts of a customer and the stall's replies; without texts, a whole order is made by picking first choices. */
export function tryOut(menu: Menu, { name, stock, texts, now }: Trial): readonly Said[] {
  const unit = new UnitOfWork(NOWHERE);
  const identity = {
    fair: "fair" as FairId, // names of this page's own
    stall: "stall" as StallId,
    name,
    fairName: name,
    timeZone: "UTC",
    openings: [{ opens: now - HOUR, closes: now + 12 * HOUR }],
  };
  unit.carryOut({ type: "open", identity }, now);
  if (unit.carryOut({ type: "set-menu", menu }, now).refusal !== null) return [];
  unit.carryOut({ type: "change-stock", entries: stockToTry(menu, stock).entries }, now);

  const said: Said[] = [];
  const say = (text: string, n: number): void => {
    said.push({ from: "customer", text, size: segments(text) });
    const heard = answerMessage(
      unit,
      { id: `text-${n}`, text, customer: CUSTOMER, phone: NUMBER, chance: 0.5 },
      now + n * 5000,
    );
    if (!heard.ok) return;
    for (const reply of heard.value.replies) said.push({ from: "stall", text: reply, size: segments(reply) });
  };

  if (texts.length > 0) {
    texts.forEach(say);
    return said;
  }
  say("menu", 0);
  for (let n = 1; n < LONGEST; n += 1) {
    const { step } = conversationOf(unit, menu, CUSTOMER).talk;
    if (step.at === "choosing") say(AFTER_CHOICE, n);
    else if (step.at === "confirm") {
      say("yes", n);
      break;
    } else break;
  }
  return said;
}
