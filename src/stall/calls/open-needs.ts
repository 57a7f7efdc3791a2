/** What the open orders need: whoever edits the menu or counts the stock is told whom it concerns. */
import type { OpenNeeds } from "../../model/orders/open-needs.ts";
import type { Job, Order } from "../state/facts.ts";
import type { StallState } from "../state/state.ts";

// Pressed garments used theirs up, short ones have given theirs back.
const PROMISED: ReadonlySet<Job["stage"]> = new Set([
  "to-pay",
  "to-claim",
  "waiting",
  "reserved",
  "pressing",
]);

/** The turn of an order's last garment: stock that is missing is missed by the last in line. */
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
