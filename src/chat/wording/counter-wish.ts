/** A wish that the counter takes, for a customer who asks by text. */
import type { OrderingPort } from "../talk/ordering-port.ts";
import { nameIn } from "../talk/range.ts";
import type { Talk } from "../talk/talk.ts";
import { lexiconOf } from "../understand/lexicon.ts";
import { counterWish } from "../understand/wishes.ts";
import { price } from "./price.ts";
import type { CounterWish } from "./shape.ts";

/** The counter's wish that some words mean, with its price; null if there is none. */
export function takenAtCounter(
  { menu }: OrderingPort,
  { language }: Talk,
  words: string,
): CounterWish | null {
  const wish = counterWish(lexiconOf(menu), words);
  if (wish === null) return null;
  const { surcharge } = wish;
  return { name: nameIn(language, wish), more: surcharge > 0 ? price(menu, surcharge) : null };
}
