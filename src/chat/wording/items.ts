/** The lines of a list whose numbers stand for doing something. */
import type { Counter } from "../talk/ordering-port.ts";
import { type BasketLine, type Draft, EMPTY_DRAFT, type Pick, type Talk } from "../talk/talk.ts";
import { known } from "./compose.ts";
import { sentencesOf } from "./languages.ts";
import { knownOf } from "./say-names.ts";
import type { Item, Sentences } from "./shape.ts";

/** The lines of a list of picks; what `beside` already says of a garment is not said again. */
export function itemsOf(
  { menu }: Counter,
  { language, basket }: Talk,
  picks: readonly Pick[],
  beside: Draft = EMPTY_DRAFT,
): readonly Item[] {
  return picks.map((pick, index): Item => {
    const number = index + 1;
    const drafts = draftsOf(pick, basket);
    const [draft, ...others] = drafts;
    if (draft === undefined) return { number, name: nameOf(sentencesOf(language), pick) };
    const what = knownOf(menu, language, unlike(draft, beside));
    if (others.length === 0) return { number, name: "", known: what };
    return { number, name: drafts.map((other) => known(knownOf(menu, language, other), 4)).join(" + ") };
  });
}

/** The garments that a pick names. */
function draftsOf(pick: Pick, basket: readonly BasketLine[]): readonly Draft[] {
  switch (pick.take) {
    case "offer":
      return [{ ...EMPTY_DRAFT, offer: pick.offer }];
    case "colour":
      return [{ ...EMPTY_DRAFT, colour: pick.colour }];
    case "size":
      return [{ ...EMPTY_DRAFT, size: pick.size }];
    case "drafts":
      return pick.drafts;
    case "swap":
    case "instead":
      return [pick.draft];
    case "line":
      return basket.slice(pick.line, pick.line + 1);
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

function nameOf(sentences: Sentences, pick: Pick): string {
  switch (pick.take) {
    case "part":
      return sentences.part(pick.part);
    case "drop-order":
      return sentences.orderItem(pick.number);
    case "drop-basket":
      return sentences.unconfirmed();
    case "keep":
      return sentences.keepWaiting();
    default:
      return "";
  }
}
