/** The stock that open orders need, shown to whoever edits the menu or counts the stock. */
import type { OpenNeeds } from "../../model/orders/open-needs.ts";
import type { Job } from "../state/shapes/job.ts";
import type { Order } from "../state/shapes/order.ts";
import type { StallState } from "../state/state.ts";

// Pressed garments have used their pieces, and short garments have given theirs back.
const PROMISED: ReadonlySet<Job["stage"]> = new Set([
  "to-pay",
  "to-claim",
  "waiting",
  "reserved",
  "pressing",
]);

/** The turn of an order's last garment: missing stock is taken from the last in line. */
const lastTurn = ({ jobs }: Order): number =>
  Math.max(...jobs.map((job) => ("turn" in job ? job.turn : Number.POSITIVE_INFINITY)));

export function openNeeds(state: StallState): OpenNeeds {
  const orders = [...state.orders.values()].sort(
    (one, other) => lastTurn(one) - lastTurn(other) || one.number - other.number,
  );
  return {
    orders: orders.map(({ number, lines, jobs }) => ({
      number,
      lines: lines.map(({ offer, blank, design, colour, size, quantity }, index) => ({
        offer,
        blank,
        design,
        colour,
        size,
        quantity,
        promised: jobs.filter(({ line, stage }) => line === index && PROMISED.has(stage)).length,
      })),
    })),
  };
}
