/** A wish that the stall's counter takes, as it is told to whoever asks by text. */
import type { OrderingPort } from "../talk/ordering-port.ts";
import { nameIn } from "../talk/range.ts";
import type { Talk } from "../talk/talk.ts";
import { lexiconOf } from "../understand/lexicon.ts";
import { counterWish } from "../understand/wishes.ts";
import { price } from "./price.ts";
import type { CounterWish } from "./shape.ts";

/** The wish of the counter that some words mean, with what it costs; null if the counter takes none such. */
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
