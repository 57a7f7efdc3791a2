/** Saying why the stall would not. */
import type { Refusal } from "../../model/orders/refusal.ts";
import type { Say } from "../fitting/fit.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import type { Talk } from "../talk/talk.ts";
import { sentencesOf } from "../wording/languages.ts";
import { timeOf } from "../wording/say-names.ts";
import type { TurnAnswer } from "./turn.ts";

/**
 * Refusals that a conversation never meets, or that its customer cannot change: the reply says only that it did not
 * work. A new refusal needs an entry here or words of its own; the compiler checks that.
 */
export type WithoutWords =
  | "no-such-stall"
  | "no-menu"
  | "no-such-offer"
  | "no-such-choice"
  | "sold-out"
  | "nothing-held"
  | "no-such-order"
  | "no-such-job"
  | "no-such-press"
  | "press-down"
  | "wrong-stage"
  | "reserved"
  | "on-press"
  | "above-price"
  | "not-paid"
  | "cannot-text"
  | "wrong-word"
  | "number-taken"
  | "stock"
  | "menu"
  | "menu-changed"
  | "no-such-design"
  | "no-picture-room";

/** The reply while no orders are taken at all; null while they are. */
export function stopped(port: OrderingPort, talk: Talk): Say | null {
  const sentences = sentencesOf(port, talk);
  const { opening } = port;
  if (!opening.open) return shut(port, talk, opening.opens);
  if (port.fairStop !== undefined) return sentences.fairStopped(port.fairStop);
  return port.takesOrders ? null : sentences.paused();
}

function shut(port: OrderingPort, talk: Talk, opens: number | null): Say {
  const sentences = sentencesOf(port, talk);
  const stall = port.stallName;
  if (opens !== null) return sentences.closed({ stall, opens: timeOf(port, talk, opens) });
  return sentences.over({ stall, fair: port.fairName, contact: port.menu.rules.contact ?? null });
}

/** Says why a basket cannot be had just now. The basket stays, so that a later YES tries again. */
export function refused(port: OrderingPort, talk: Talk, refusal: Refusal): TurnAnswer {
  const shown = port.bill(talk.basket.map(({ each: _, ...line }) => line)).total;
  const waiting: Talk = {
    ...talk,
    step: { at: "confirm", shown },
    list: { of: "picks", picks: [{ take: "yes" }, { take: "add" }, { take: "change" }] },
  };
  return { talk: waiting, say: reason(port, talk, refusal) };
}

function reason(port: OrderingPort, talk: Talk, refusal: Refusal): Say {
  const sentences = sentencesOf(port, talk);
  switch (refusal.code) {
    case "not-open":
      return shut(port, talk, refusal.opens);
    case "paused":
      return sentences.paused();
    case "fair-stopped":
      return sentences.fairStopped(refusal.reason);
    case "line-too-long": {
      const next = port.opensNext ?? null;
      return sentences.lineTooLong({
        closes: timeOf(port, talk, refusal.closes),
        opens: next === null ? null : timeOf(port, talk, next),
      });
    }
    case "too-many":
      return sentences.tooMany(refusal);
    case "web-off":
    case "web-share":
      return sentences.webOff();
    default:
      refusal.code satisfies WithoutWords;
      return sentences.sorry();
  }
}
