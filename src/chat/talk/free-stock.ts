/** The stock left for this customer of a partly named garment. */
import type { Colour, Size } from "../../model/menu/catalogue.ts";
import type { WantedLine } from "../../model/orders/order.ts";
import type { Garment, OrderingPort } from "./ordering-port.ts";
import { type Range, rangesOf } from "./range.ts";
import type { Draft, Talk } from "./talk.ts";

/** Garments of one kind that this customer could still add to the basket. */
export function roomFor(port: OrderingPort, basket: readonly WantedLine[], garment: Garment): number {
  const ranges = rangesOf(port.menu);
  const range = ranges.get(garment.offer);
  // A basket line uses the same blank, or the same transfer, or neither.
  const used = basket.reduce((sum, line) => {
    const other = ranges.get(line.offer);
    const sameBlank =
      other?.blank === range?.blank && line.colour === garment.colour && line.size === garment.size;
    return other !== undefined && (sameBlank || other.design === range?.design) ? sum + line.quantity : sum;
  }, 0);
  const free = port.free(garment);
  return used === 0 ? free : Math.max(0, free - used);
}

/** Whether stock is left that fits the known parts of the garment. */
export function isLeft(port: OrderingPort, { basket }: Pick<Talk, "basket">, draft: Draft): boolean {
  const ranges = rangesOf(port.menu);
  const range = draft.offer === null ? undefined : ranges.get(draft.offer);
  const places = range === undefined ? [...ranges.values()] : [range];
  return places.some((place) =>
    among(place.colours, draft.colour).some((colour) =>
      among(place.sizes, draft.size).some(
        (size) => roomFor(port, basket, garmentOf(place, colour, size)) > 0,
      ),
    ),
  );
}

function among<Choice extends Colour | Size>(
  choices: readonly Choice[],
  id: string | null,
): readonly Choice[] {
  return id === null ? choices : choices.filter((choice) => choice.id === id);
}

export const garmentOf = ({ offer }: Range, colour: Colour, size: Size): Garment => ({
  offer: offer.id,
  colour: colour.id,
  size: size.id,
});
