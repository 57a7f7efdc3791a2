import { fewestBins } from "../../maths/bins/bins.ts";
import { inKilograms, KILOGRAMS_PER_POUND } from "../../maths/units.ts";
import type { PitchPlan, PitchRequest, VehicleLoad } from "../../model/planning/pitch.ts";
import { listed, plural, round } from "../words/phrases.ts";

/** A count of items is carried one by one, so that a heavy stack can be split over trips. */
export const MOST_CARGO_ITEMS = 200;

const GRAMS = 1000;

/**
 * Shares the cargo over as few vehicle loads as its weight allows, each within its payload (exact within a
 * budget; maths/bins.ts). Weight alone is counted: whether it also fits in, and how it is tied down, is for
 * the driver to see.
 */
export function vehicleLoads(
  vehicles: NonNullable<PitchRequest["vehicles"]>,
  cargo: NonNullable<PitchRequest["cargo"]>,
): NonNullable<PitchPlan["vehicles"]> {
  const trips = vehicles.flatMap(({ vehicle, payload, trips: count = 1 }) =>
    Array.from({ length: count }, (_, trip) => ({
      vehicle,
      trip: trip + 1,
      kilograms: inKilograms(payload),
    })),
  );
  const items = cargo.flatMap(({ item, weight, count = 1 }) =>
    Array.from({ length: count }, () => ({ item, kilograms: inKilograms(weight) })),
  );
  const heaviest = Math.max(0, ...trips.map(({ kilograms }) => kilograms));
  const carried = items.filter(({ kilograms }) => kilograms <= heaviest + 1e-9);
  const answer = fewestBins(
    carried.map(({ kilograms }) => Math.round(kilograms * GRAMS)),
    trips.map(({ kilograms }) => Math.round(kilograms * GRAMS)),
  );
  const binOf = answer.type === "packed" ? answer.binOf : byHeaviest(carried, trips);
  const loads = trips.flatMap((trip, index): VehicleLoad[] => {
    const on = carried.filter((_, item) => binOf[item] === index);
    if (on.length === 0) return [];
    const counts = new Map<string, number>();
    for (const { item } of on) counts.set(item, (counts.get(item) ?? 0) + 1);
    const kilograms = on.reduce((sum, item) => sum + item.kilograms, 0);
    return [
      {
        vehicle: trip.vehicle,
        trip: trip.trip,
        items: [...counts].map(([item, count]) => ({ item, count })),
        kilograms,
        pounds: kilograms / KILOGRAMS_PER_POUND,
        payloadKilograms: trip.kilograms,
      },
    ];
  });
  const left = [
    ...items.filter((item) => !carried.includes(item)),
    ...carried.filter((_, item) => (binOf[item] ?? -1) < 0),
  ].map(({ item }) => item);
  return { loads, left: [...new Set(left)], says: inWords(loads, left, items) };
}

/** If not everything fits: the heaviest first, wherever there is room. -1 for pieces that stay. */
function byHeaviest(
  items: readonly { readonly kilograms: number }[],
  trips: readonly { readonly kilograms: number }[],
): number[] {
  const room = trips.map(({ kilograms }) => kilograms);
  const binOf = items.map(() => -1);
  const order = [...items.keys()].sort((a, b) => (items[b]?.kilograms ?? 0) - (items[a]?.kilograms ?? 0));
  for (const item of order) {
    const weight = items[item]?.kilograms ?? 0;
    const trip = room.findIndex((left) => left >= weight - 1e-9);
    if (trip < 0) continue;
    room[trip] = (room[trip] ?? 0) - weight;
    binOf[item] = trip;
  }
  return binOf;
}

function inWords(
  loads: readonly VehicleLoad[],
  left: readonly string[],
  items: readonly { readonly kilograms: number }[],
): string {
  const total = round(items.reduce((sum, { kilograms }) => sum + kilograms, 0));
  if (left.length === 0) return `${total} kg in ${plural(loads.length, "load")}, by weight alone.`;
  return `${total} kg are too much for these vehicles: ${listed([...new Set(left)])} would have to stay, or another trip be made.`;
}
