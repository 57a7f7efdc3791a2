/** The lines of a list whose numbers stand for actions. */
import type { OrderingPort } from "../talk/ordering-port.ts";
import { type BasketLine, type Choice, type Draft, EMPTY_DRAFT, type Talk } from "../talk/talk.ts";
import { known } from "./compose.ts";
import { sentencesOf } from "./languages.ts";
import { knownOf } from "./say-names.ts";
import type { Item, Sentences } from "./shape.ts";

/**
 * The lines of a list of choices. `beside` is what the question says of a garment already: a list that is short of
 * room says only how its choices differ from that.
 */
export function itemsOf(
  port: OrderingPort,
  talk: Talk,
  choices: readonly Choice[],
  beside: Draft = EMPTY_DRAFT,
): readonly Item[] {
  const { menu } = port;
  return choices.map((choice, index): Item => {
    const number = index + 1;
    const drafts = draftsOf(choice, talk.basket);
    if (drafts.length === 0) return { number, ...nameOf(sentencesOf(port, talk), choice) };
    const said = (how: (draft: Draft) => Draft): string =>
      drafts.map((draft) => known(knownOf(menu, talk.language, how(draft)))).join(" + ");
    return {
      number,
      name: said((draft) => withoutNamed(draft, beside)),
      brief: said((draft) => different(draft, beside)),
    };
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
    case "drop-draft":
      return [choice.draft];
    case "change-line":
      return [choice.line];
    case "line":
      return basket.slice(choice.line, choice.line + 1);
    default:
      return [];
  }
}

/** A draft without the offer and the quantity that were just named. */
const withoutNamed = (draft: Draft, beside: Draft): Draft => ({
  ...draft,
  offer: draft.offer === beside.offer && (draft.colour ?? draft.size) !== null ? null : draft.offer,
  quantity: draft.quantity === beside.quantity ? null : draft.quantity,
});

/** How a draft differs from the one named before it; the whole draft if it does not. */
function different(draft: Draft, beside: Draft): Draft {
  const unlike = <Key extends keyof Draft>(key: Key): Draft[Key] | null =>
    draft[key] === beside[key] ? null : draft[key];
  const rest: Draft = {
    offer: unlike("offer"),
    colour: unlike("colour"),
    size: unlike("size"),
    quantity: unlike("quantity"),
  };
  return (rest.offer ?? rest.colour ?? rest.size) === null ? withoutNamed(draft, beside) : rest;
}

function nameOf(sentences: Sentences, choice: Choice): Pick<Item, "name" | "brief"> {
  switch (choice.take) {
    case "change-part":
    case "part":
      return { name: sentences.part(choice.part) };
    case "change-order":
    case "drop-order":
      return { name: sentences.orderItem(choice.number), brief: String(choice.number) };
    case "drop-basket":
      return { name: sentences.unconfirmed() };
    case "drop-nothing":
      return { name: sentences.cancelNothing() };
    case "keep":
      return { name: sentences.keepWaiting() };
    default:
      return { name: "" };
  }
}
