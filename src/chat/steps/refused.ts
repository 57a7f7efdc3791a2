/** Saying why the stall would not. */
import type { Refusal } from "../../model/orders/refusal.ts";
import type { Say } from "../fitting/fit.ts";
import type { Counter } from "../talk/ordering-port.ts";
import type { Talk } from "../talk/talk.ts";
import { sentencesOf } from "../wording/languages.ts";
import { timeOf } from "../wording/say-names.ts";
import type { TurnAnswer } from "./turn.ts";

/** What to say while no orders are taken at all; null while they are. */
export function stopped(counter: Counter, talk: Talk): Say | null {
  const sentences = sentencesOf(talk.language);
  const { opening } = counter;
  if (!opening.open) return shut(counter, talk, opening.opens);
  return counter.paused ? sentences.paused() : null;
}

function shut(counter: Counter, talk: Talk, opens: number | null): Say {
  const sentences = sentencesOf(talk.language);
  const stall = counter.stallName;
  if (opens !== null) return sentences.closed({ stall, opens: timeOf(counter, talk, opens) });
  return sentences.over({ stall, fair: counter.fairName, contact: counter.menu.rules.contact ?? null });
}

/** Says why a basket cannot be had just now. The basket stays, so that a later YES tries again. */
export function refused(counter: Counter, talk: Talk, refusal: Refusal): TurnAnswer {
  const shown = counter.total(talk.basket.map(({ each: _, ...line }) => line));
  const waiting: Talk = {
    ...talk,
    step: { at: "confirm", shown },
    list: { of: "picks", picks: [{ take: "yes" }, { take: "add" }, { take: "change" }] },
  };
  return { talk: waiting, say: reason(counter, talk, refusal) };
}

function reason(counter: Counter, talk: Talk, refusal: Refusal): Say {
  const sentences = sentencesOf(talk.language);
  switch (refusal.code) {
    case "not-open":
      return shut(counter, talk, refusal.opens);
    case "paused":
      return sentences.paused();
    case "line-too-long": {
      const next = counter.opensNext ?? null;
      return sentences.lineTooLong({
        closes: timeOf(counter, talk, refusal.closes),
        opens: next === null ? null : timeOf(counter, talk, next),
      });
    }
    case "too-many":
      return sentences.tooMany(refusal);
    case "web-off":
    case "web-share":
      return sentences.webOff();
    default:
      return sentences.sorry();
  }
}
