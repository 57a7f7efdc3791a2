/** The garments that a conversation shows now: the choices of its list, and the basket. */
import type { Shown, ShownGarment } from "../../model/orders/chat.ts";
import { type Choice, type Draft, EMPTY_DRAFT, type Talk } from "./talk.ts";

/** A draft as far as it can be drawn; null if its offer is unknown. */
function garmentIn({ offer, colour, size }: Draft): ShownGarment | null {
  if (offer === null) return null;
  return { offer, ...(colour === null ? {} : { colour }), ...(size === null ? {} : { size }) };
}

function ofPick(pick: Choice, draft: Draft): ShownGarment | null {
  switch (pick.take) {
    case "offer":
      return { offer: pick.offer };
    case "colour":
      return garmentIn({ ...draft, colour: pick.colour });
    case "size":
      return garmentIn({ ...draft, size: pick.size });
    case "drafts":
      return pick.drafts[0] === undefined ? null : garmentIn(pick.drafts[0]);
    case "swap":
    case "instead":
      return garmentIn(pick.draft);
    default:
      return null;
  }
}

const draftOf = ({ step }: Talk): Draft => ("draft" in step ? step.draft : EMPTY_DRAFT);

/** The garments of the last list, by number. */
function listed(talk: Talk): readonly (ShownGarment | null)[] {
  const { list } = talk;
  const draft = draftOf(talk);
  switch (list.of) {
    case "offers":
      return list.offers.map((offer) => ({ offer }));
    case "colours":
      return list.colours.map((colour) => garmentIn({ ...draft, colour }));
    case "sizes":
      return list.sizes.map((size) => garmentIn({ ...draft, size }));
    case "picks":
      return list.picks.map((pick) => ofPick(pick, draft));
    case "nothing":
    case "quantity":
      return [];
    default:
      return list satisfies never;
  }
}

/** What a page can draw beside the last reply. */
export function shownBy(talk: Talk): Shown {
  const choices = listed(talk).flatMap((garment, index) =>
    garment === null ? [] : [{ number: index + 1, ...garment }],
  );
  const basket =
    talk.step.at === "confirm" ? talk.basket.map(({ offer, colour, size }) => ({ offer, colour, size })) : [];
  return { choices, basket };
}
