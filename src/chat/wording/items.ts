/** The lines of a list whose numbers stand for doing something. */
import type { OrderingPort } from "../talk/ordering-port.ts";
import { type BasketLine, type Choice, type Draft, EMPTY_DRAFT, type Talk } from "../talk/talk.ts";
import { known } from "./compose.ts";
import { sentencesOf } from "./languages.ts";
import { knownOf } from "./say-names.ts";
import type { Item, Sentences } from "./shape.ts";

/** The lines of a list of picks; what `beside` already says of a garment is not said again. */
export function itemsOf(
  { menu }: OrderingPort,
  { language, basket }: Talk,
  picks: readonly Choice[],
  beside: Draft = EMPTY_DRAFT,
): readonly Item[] {
  return picks.map((choice, index): Item => {
    const number = index + 1;
    const drafts = draftsOf(choice, basket);
    const [draft, ...others] = drafts;
    if (draft === undefined) return { number, name: nameOf(sentencesOf(language), choice) };
    const what = knownOf(menu, language, unlike(draft, beside));
    if (others.length === 0) return { number, name: "", known: what };
    return { number, name: drafts.map((other) => known(knownOf(menu, language, other), 4)).join(" + ") };
  });
}

/** The garments that a choice names. */
function draftsOf(choice: Choice, basket: readonly BasketLine[]): readonly Draft[] {
  switch (choice.take) {
    case "offer":
      return [{ ...EMPTY_DRAFT, offer: choice.offer }];
    case "colour":
      return [{ ...EMPTY_DRAFT, colour: choice.colour }];
    case "size":
      return [{ ...EMPTY_DRAFT, size: choice.size }];
    case "drafts":
      return choice.drafts;
    case "swap":
    case "instead":
      return [choice.draft];
    case "line":
      return basket.slice(choice.line, choice.line + 1);
    default:
      return [];
  }
}

/** A draft without the offer and the quantity that were just named. */
const unlike = (draft: Draft, beside: Draft): Draft => ({
  ...draft,
  offer: draft.offer === beside.offer && (draft.colour ?? draft.size) !== null ? null : draft.offer,
  quantity: draft.quantity === beside.quantity ? null : draft.quantity,
});

function nameOf(sentences: Sentences, choice: Choice): string {
  switch (choice.take) {
    case "part":
      return sentences.part(choice.part);
    case "drop-order":
      return sentences.orderItem(choice.number);
    case "drop-basket":
      return sentences.unconfirmed();
    case "keep":
      return sentences.keepWaiting();
    default:
      return "";
  }
}
