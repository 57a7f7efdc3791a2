/** A wish for something that is not on the menu: said back, asked about, and handed to the crew with the order. */
import { draftOf } from "../talk/draft.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import type { Talk } from "../talk/talk.ts";
import { read } from "../understand/read.ts";
import { shortWish, type Wished } from "../understand/wishes.ts";
import { takenAtCounter } from "../wording/counter-wish.ts";
import { sentencesOf } from "../wording/languages.ts";
import { menuAfter } from "./around.ts";
import { hold } from "./choose.ts";
import { ask } from "./question.ts";
import { numbered } from "./take.ts";
import { after, type TurnAnswer } from "./turn.ts";
import { worded } from "./words.ts";

/** Handles the rest of a text with a wish; the confirmation then says "without the wish". */
export function wishing(port: OrderingPort, before: Talk, { words, rest }: Wished): TurnAnswer {
  const talk: Talk = { ...before, wish: shortWish(before.wish, words) };
  const { menu: offered } = port;
  const reading = read(offered, talk.language, { draft: draftOf(talk) }, rest);
  if (reading.type === "garments") return worded(port, talk, rest, reading.lines);
  if (talk.step.at === "confirm") return hold(port, talk);
  if (reading.type === "number" && talk.step.at !== "idle") return numbered(port, talk, reading.number);
  const taken = takenAtCounter(port, talk, words);
  const say = sentencesOf(port, talk).wishes({ wish: shortWish(undefined, words), taken });
  // Nothing is being ordered, and the text does not change an order.
  if (talk.step.at === "idle" && talk.basket.length === 0 && port.orders().length > 0)
    return { talk: before, say };
  if (talk.step.at === "idle") return menuAfter(port, { talk, say });
  // What is under way is confirmed without the wish in any case, so the question comes first if room is short.
  return after((brevity) => (brevity < 5 ? say(brevity) : ""), ask(port, talk));
}
