/** Orders that will soon be dropped as unpaid, shown in time to act. Pure. */
import type { QueueView } from "../../../../model/orders/queue.ts";
import type { Act } from "../acts.ts";

type Unpaid = QueueView["unpaid"][number];

const MINUTE = 60_000;
const ANNOUNCED = 2 * MINUTE;

/** The orders dropped within two minutes, with the minutes left; 0 if the time is over. */
export function aboutToDrop(
  queue: Partial<Pick<QueueView, "unpaid">>,
  acts: readonly Act[],
  now: number,
): readonly { readonly order: Unpaid; readonly minutes: number }[] {
  const settled = new Set(
    acts.flatMap((act) =>
      act.type === "order" && ["paid", "kept-unpaid", "closed"].includes(act.change.type) ? [act.number] : [],
    ),
  );
  return (queue.unpaid ?? []).flatMap((order) => {
    const left = Date.parse(order.dropsAt) - now;
    if (left > ANNOUNCED || settled.has(order.number)) return [];
    return [{ order, minutes: Math.max(0, Math.ceil(left / MINUTE)) }];
  });
}

/** "127 is dropped in 2 min: unpaid". */
export const dropWords = (number: number, minutes: number): string =>
  minutes === 0 ? `${number} is being dropped: unpaid` : `${number} is dropped in ${minutes} min: unpaid`;
