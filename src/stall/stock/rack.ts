/** Garments that are pressed and not taken. */
import { type JobId, jobId } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { CarriedGarment } from "../../model/orders/rack.ts";
import { isClosed } from "../state/account.ts";
import { lineOf } from "../state/orders.ts";
import type { Job } from "../state/shapes/job.ts";
import type { Line, RackItem } from "../state/shapes/line.ts";
import type { Order } from "../state/shapes/order.ts";
import type { StallState } from "../state/state.ts";
import { secondLess } from "./pricing.ts";

/** A garment of an order as a row of the rack. */
export function rackItemOf(
  order: Order,
  job: Job,
  how: Pick<RackItem, "why" | "from"> & { readonly keptFor?: number },
): Omit<RackItem, "at" | "day"> {
  const line = lineOf(order, job);
  // What hung there before is as it was, also in what its line does not say.
  const { offer, blank, design, colour, size, wishes, second, own, platen, kind, effort } = line.hung ?? line;
  return {
    offer,
    blank,
    design,
    colour,
    size,
    platen,
    kind,
    ...(wishes === undefined ? {} : { wishes }),
    ...(second === undefined ? {} : { second }),
    ...(own === undefined ? {} : { own }),
    ...(effort === undefined ? {} : { effort }),
    ...how,
    ...(line.hung?.why === "misprint" ? { why: "misprint" } : {}),
  };
}

/** A line with the garment of the rack that it is, as it hangs there; a misprint at the price of a second. */
export function asItHangs({ rack }: StallState, { rules }: Menu, line: Line): Line {
  const hung = line.rack === undefined ? undefined : rack.get(line.rack);
  if (hung?.why !== "misprint") return hung === undefined ? line : { ...line, hung };
  const asSecond = secondLess(rules, line.each);
  return { ...line, hung, each: line.each - asSecond, asSecond };
}

/** The garments of the rack as they go to another fair; what customers brought themselves stays theirs. */
export function carriedRack({ rack }: StallState): readonly CarriedGarment[] {
  const garments = [...rack.keys()].flatMap((key): CarriedGarment[] => {
    const item = rack.get(key);
    if (item === undefined || item.own === true) return [];
    const { offer, blank, design, colour, size, platen, kind, wishes, second, effort, why } = item;
    return [
      {
        ...{ offer, blank, design, colour, size, platen, kind },
        ...(wishes === undefined ? {} : { wishes: [...wishes] }),
        ...(second === undefined ? {} : { second: [...second] }),
        ...(effort === undefined ? {} : { effort }),
        misprint: why === "misprint",
      },
    ];
  });
  return garments.toSorted((one, other) => (JSON.stringify(one) < JSON.stringify(other) ? -1 : 1));
}

/**
 * A garment that was brought from another fair, or printed ahead for this one, under a name that neither an order's
 * garment has nor one of the other origin.
 */
export function broughtItem(
  { misprint, wishes, second, effort, ...made }: CarriedGarment,
  index: number,
  from: "brought" | "plan" = "brought",
) {
  const key = jobId(LAST_NUMBER[from] - Math.floor(index / MOST_IN_ORDER), 1 + (index % MOST_IN_ORDER));
  const item: Omit<RackItem, "at" | "day"> = {
    ...made,
    ...(wishes === undefined ? {} : { wishes }),
    ...(second === undefined ? {} : { second }),
    ...(effort === undefined ? {} : { effort }),
    why: misprint ? "misprint" : from === "plan" ? "ahead" : "brought",
    from,
  };
  return { key, item };
}
const LAST_NUMBER = { brought: 999_999, plan: 899_999 } as const;
const MOST_IN_ORDER = 99;

/** A garment of an order may be made more than once: what of it is on the rack then has a number that no garment has. */
const SPARE_NUMBERS = Array.from({ length: 30 }, (_, at) => 99 - at);

/** The names that garments of an order which are made again have on the rack. */
export const spareKeys = (number: number): readonly JobId[] => SPARE_NUMBERS.map((n) => jobId(number, n));

/**
 * A name on the rack for a garment of an order that is made again; undefined if it has none left. The name of a garment
 * that was sold is not given again: it may come back.
 */
export function spareKey(state: StallState, number: number): JobId | undefined {
  const { soldOn = [] } = state.anyOrder(number) ?? {};
  const gone = new Set(soldOn.map((n) => jobId(number, n)));
  return spareKeys(number).find((key) => state.rack.get(key) === undefined && !gone.has(key));
}

/** Whether a garment on the rack may be sold: one that is paid and was not fetched is kept until its day is closed. */
export const isForSale = ({ account }: StallState, { keptFor, day }: RackItem): boolean =>
  keptFor === undefined || isClosed(account, day);

/** The garment on the rack that a line may be: of that offer, colour and size, and for sale. */
export function onRack(
  state: StallState,
  key: JobId,
  { offer, colour, size }: Pick<Line, "offer" | "colour" | "size">,
): RackItem | undefined {
  const item = state.rack.get(key);
  const fits = item !== undefined && item.offer === offer && item.colour === colour && item.size === size;
  return fits && isForSale(state, item) ? item : undefined;
}
