/** The rack as the counter sees it, with the money owed on orders that are over. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { RackGarment, RackView } from "../../../model/orders/rack.ts";
import { iso } from "../../../time/instants.ts";
import type { RackItem } from "../../state/shapes/line.ts";
import type { StallState } from "../../state/state.ts";
import { offerParts } from "../../stock/offers.ts";
import { isForSale } from "../../stock/rack.ts";
import { wishNames } from "../views.ts";

/** The garments on the rack, those that have hung longest first. */
export function rackGarments(state: StallState, menu: Menu): RackGarment[] {
  const items = [...state.rack.keys()].flatMap((key) => {
    const item = state.rack.get(key);
    return item === undefined ? [] : [[key, item] as const];
  });
  return items
    .toSorted(([, one], [, other]) => one.at - other.at)
    .map(([key, item]) => garmentView(state, menu, key, item));
}

/** The rack, and the money owed on orders that are over. */
export function rackView(state: StallState, menu: Menu): RackView {
  return {
    garments: rackGarments(state, menu),
    owed: [...state.owed.keys()].map((key) => ({
      number: Number(key),
      amount: { amount: state.owed.get(key) ?? 0, currency: menu.currency },
    })),
  };
}

function garmentView(state: StallState, menu: Menu, key: string, item: RackItem): RackGarment {
  const { offer, blank, design, colour, size, wishes, why, at, keptFor } = item;
  const made = offerParts(menu, offer);
  return {
    key: key as RackGarment["key"], // the table's keys are garments
    offer,
    name: made?.offer.name ?? offer,
    blank,
    design,
    colour,
    colourName: made?.blank.colours.find(({ id }) => id === colour)?.name ?? colour,
    size,
    sizeName: made?.blank.sizes.find(({ id }) => id === size)?.name ?? size,
    ...(wishes === undefined ? {} : { wishes: wishNames(menu, wishes).map(({ name }) => name) }),
    why,
    second: why === "misprint",
    keptFor: isForSale(state, item) ? null : (keptFor ?? null),
    since: iso(at),
  };
}
