/** Names, prices and times as a customer reads them. */

import type { Language } from "../../model/basics/words.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { paymentLink } from "../../model/menu/payment-link.ts";
import { lowestPrice, priceOf } from "../../model/menu/prices.ts";
import type { OrderStage } from "../../model/orders/order.ts";
import { isMidnight } from "../../time/fair-day.ts";
import type { ChatOrder, OrderingPort } from "../talk/ordering-port.ts";
import { colourOf, nameIn, type Range, rangesOf, sizeOf } from "../talk/range.ts";
import type { Draft, Talk } from "../talk/talk.ts";
import { sentencesOf } from "./languages.ts";
import { price } from "./price.ts";
import type { KnownGarment, OrderFacts, Paying } from "./shape.ts";

/** The price of an offer whose size is not known: "$24", or "from $24" if some of its sizes cost more. */
export function offerPrice(menu: Menu, language: Language, { offer, blank }: Range): string {
  const { lowest, varies } = lowestPrice(offer, blank);
  const words = price(menu, lowest);
  return varies ? sentencesOf({ menu }, { language }).from(words) : words;
}

/** The known parts of a garment, in words. */
export function knownOf(menu: Menu, language: Language, draft: Draft): KnownGarment {
  const ranges = rangesOf(menu);
  const range = draft.offer === null ? undefined : ranges.get(draft.offer);
  // Without an offer any blank that has the colour can name it.
  const places = range === undefined ? [...ranges.values()] : [range];
  const colour = draft.colour;
  const size = draft.size;
  const colourFound =
    colour === null
      ? undefined
      : places.map((place) => colourOf(place, colour)).find((found) => found !== undefined);
  const sizeFound =
    size === null
      ? undefined
      : places.map((place) => sizeOf(place, size)).find((found) => found !== undefined);
  return {
    quantity: draft.quantity,
    offer: range === undefined ? null : nameIn(language, range.offer),
    colour: colourFound === undefined || range?.colours.length === 1 ? null : nameIn(language, colourFound),
    size: sizeFound === undefined || range?.sizes.length === 1 ? null : nameIn(language, sizeFound),
    ...(range === undefined
      ? {}
      : {
          price:
            sizeFound === undefined
              ? offerPrice(menu, language, range)
              : price(menu, priceOf(range.offer, sizeFound)),
        }),
  };
}

export const factsOf = ({ paused }: OrderingPort, order: ChatOrder): OrderFacts => ({
  number: order.number,
  word: order.word,
  stage: order.stage,
  place: order.place,
  minutes: order.minutesLeft,
  short: order.shortGarments,
  paused,
});

/** The stall's payment page for an order; null if it has none, or notes no payments. */
export function payAtOf({ rules, currency }: Menu, { number, total }: ChatOrder): string | null {
  if (rules.paymentLink === undefined || rules.payment === "not-tracked") return null;
  return paymentLink(rules.paymentLink, { order: number, minorUnits: total, currency });
}

export function payingOf({ rules }: Menu): Paying {
  switch (rules.payment) {
    case "before-pressing":
      return "first";
    case "before-handover":
      return "at-pickup";
    case "not-tracked":
      return "untracked";
    default:
      return rules.payment satisfies never;
  }
}

const ENDED: ReadonlySet<OrderStage> = new Set([
  "collected",
  "dropped",
  "uncollected",
  "refunded",
  "exchanged",
]);
export const isOpen = ({ stage }: ChatOrder): boolean => !ENDED.has(stage);

const clocks = new Map<string, Intl.DateTimeFormat>();

const TIME = { hour: "numeric", minute: "2-digit" } as const;
const DAY = { weekday: "short" } as const;
const PARTS = { time: TIME, day: DAY, both: { ...TIME, ...DAY } } as const;

function clock(language: Language, timeZone: string, says: keyof typeof PARTS): Intl.DateTimeFormat {
  const key = `${language} ${timeZone} ${says}`;
  let format = clocks.get(key);
  if (format === undefined) {
    format = new Intl.DateTimeFormat(language, { timeZone, ...PARTS[says] });
    clocks.set(key, format);
  }
  return format;
}

/** An instant on the fair's clock, with the day if it is neither today nor in the opening hours under way. Midnight has its name, and ends the day before it. */
export function timeOf(
  { menu, timeZone, now, opening }: Pick<OrderingPort, "menu" | "timeZone" | "now" | "opening">,
  { language }: Pick<Talk, "language">,
  instant: number,
): string {
  const midnight = isMidnight(instant, timeZone);
  const within = midnight ? instant - 1 : instant;
  // Tonight's closing time may be after midnight.
  const isTonight = opening.open && now <= instant && instant <= opening.closes;
  const isToday = isTonight || dayOf(timeZone, within) === dayOf(timeZone, now);
  if (!midnight) return clock(language, timeZone, isToday ? "time" : "both").format(instant);
  const { midnight: word } = sentencesOf({ menu }, { language });
  return isToday ? word : `${clock(language, timeZone, "day").format(within)}, ${word}`;
}

const days = new Map<string, Intl.DateTimeFormat>();

function dayOf(timeZone: string, at: number): string {
  let format = days.get(timeZone);
  if (format === undefined) {
    format = new Intl.DateTimeFormat("en", { timeZone, dateStyle: "short" });
    days.set(timeZone, format);
  }
  return format.format(at);
}
