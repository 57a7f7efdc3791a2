/** The rack as this tablet knows it, without the garments it has sold or removed since the stall's answer. Pure. */
import type { MenuView } from "../../../../model/menu/menu-view.ts";
import type { Rules } from "../../../../model/menu/rules.ts";
import type { RackGarment } from "../../../../model/orders/rack.ts";
import type { StockView } from "../../../../model/orders/stock.ts";
import { secondLess } from "../../../../stall/stock/pricing.ts";
import type { SlipLine } from "../../crew/offline.ts";
import { rackWords } from "../../crew/words/rack.ts";
import type { Act } from "../acts.ts";

type Known = {
  readonly seen: { readonly stock?: StockView | null } | null;
  readonly taps: { readonly acts: readonly Act[] };
};

/** The garments on the rack once the stall has every tap of this tablet. */
export function rackOf({ seen, taps }: Known): readonly RackGarment[] {
  const gone = new Set<string>();
  const released = new Set<string>();
  for (const act of taps.acts) {
    if (act.type === "rack") (act.as === "thrown" ? gone : released).add(act.key);
    if (act.type === "order" && act.change.type === "as-the-stall-says" && act.change.rack !== undefined)
      gone.add(act.change.rack);
    if (act.type === "place") for (const { rack } of act.taken?.lines ?? []) if (rack) gone.add(rack);
  }
  return (seen?.stock?.rack ?? []).flatMap((garment) =>
    gone.has(garment.key) ? [] : [released.has(garment.key) ? { ...garment, keptFor: null } : garment],
  );
}

/** The unblemished garments for sale; those in the order being taken are left out. */
export function forSale(
  state: Known & { readonly slip: { readonly lines: readonly SlipLine[] } },
): readonly RackGarment[] {
  const onSlip = new Set(state.slip.lines.map(({ rack }) => rack));
  return rackOf(state).filter(
    ({ key, keptFor, second, wishes }) =>
      keptFor === null && !second && wishes === undefined && !onSlip.has(key),
  );
}

type Asked = { readonly offer: string; readonly colour: string; readonly size: string };

/** The garments of exactly this kind, those that have hung longest first. */
export const alike = (garments: readonly RackGarment[], { offer, colour, size }: Asked) =>
  garments.filter((one) => one.offer === offer && one.colour === colour && one.size === size);

const fromRack = (line: SlipLine, { key }: RackGarment): SlipLine => ({
  ...line,
  quantity: 1,
  name: `${line.name}, from the rack`,
  rack: key,
});

/** The wanted garments as lines: some from the rack, one a line, and the rest to press. */
export function withRack(line: SlipLine, garments: readonly RackGarment[]): readonly SlipLine[] {
  const taken = garments.slice(0, line.quantity).map((garment) => fromRack(line, garment));
  const quantity = line.quantity - taken.length;
  return quantity === 0 ? taken : [...taken, { ...line, quantity }];
}

/** A garment of the rack as a line of the slip at the menu's price, or a second's; null if the menu has it no more. */
export function rackLine(garment: RackGarment, menu: MenuView, rules: Rules): SlipLine | null {
  const { offer, colour, size, second } = garment;
  const left = menu.offers.find((one) => one.offer === offer)?.left ?? [];
  const piece = left.find((one) => one.colour === colour && one.size === size);
  if (piece === undefined) return null;
  const line = { offer, colour, size, quantity: 1, each: piece.price, name: rackWords(garment) };
  if (!second) return fromRack(line, garment);
  const asSecond = secondLess(rules, piece.price);
  return fromRack({ ...line, each: piece.price - asSecond, asSecond, name: `${line.name}, second` }, garment);
}
