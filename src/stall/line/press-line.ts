/** The garments that a press can take, with the facts that the pull rule needs. */

import type { PressId } from "../../model/basics/ids.ts";
import { ok, type Result, refused } from "../../model/basics/result.ts";
import type { Menu, Press } from "../../model/menu/catalogue.ts";
import type { Refusal } from "../../model/orders/refusal.ts";
import { fahrenheitOf } from "../state/heating.ts";
import type { QueuedGarment } from "../state/order-index.ts";
import { jobIn, jobOf, lineOf } from "../state/orders.ts";
import { expected } from "../state/pace.ts";
import type { StallEvent } from "../state/shapes/event.ts";
import type { StallState } from "../state/state.ts";
import type { Candidate } from "./next-job.ts";
import { reservedFor } from "./reserve.ts";

/** The press of the menu with this id, or a refusal. */
export function findPress(menu: Menu, id: PressId): Result<Press, Refusal> {
  const press = menu.presses.find((candidate) => candidate.id === id);
  return press === undefined ? refused({ code: "no-such-press", press: id }) : ok(press);
}

/** A garment in line with the facts that the pull rule needs. */
export function candidate(state: StallState, menu: Menu, placed: QueuedGarment): Candidate {
  const order = state.order(placed.number);
  if (order === undefined) throw new Error(`order ${placed.number} is in line but not open`);
  const job = jobOf(order, placed.n);
  return {
    placed,
    order,
    fahrenheit: fahrenheitOf(menu, lineOf(order, job).design),
    overtaken: job.stage === "waiting" || job.stage === "reserved" ? job.overtaken : 0,
    handlingSeconds: expected(menu, state.pace, placed.work).mean,
  };
}

/**
 * The garments a press takes its next one from: garments to press again, then its reserve, or the line if it has no
 * reserve. Overtaking by a reserved garment was counted when the garment was reserved. Garments asked back are left to
 * the press that asked.
 */
export function lineToPull(state: StallState, menu: Menu, press: Press): readonly Candidate[] {
  const open = state.orderIndex.waiting[press.platen].first(menu.rules.lookAhead + 1);
  const own = reservedFor(state, press.id).filter(({ number, n }) => {
    const job = jobIn(state.order(number), n);
    return job?.stage === "reserved" && job.askedBack !== true;
  });
  const again = open.filter(({ turn }) => turn < 0);
  const line = own.length === 0 ? open : [...again, ...own].sort((one, other) => one.turn - other.turn);
  return line.map((placed) => candidate(state, menu, placed));
}

/** Takes a garment out of the line. Each garment passed over gets an event that counts it. */
export function taken(
  line: Candidate[],
  index: number,
): { readonly job: Candidate; readonly events: StallEvent[] } {
  const events: StallEvent[] = [];
  for (const [place, passed] of line.slice(0, index).entries()) {
    line[place] = { ...passed, overtaken: passed.overtaken + 1 };
    events.push({ type: "overtaken", number: passed.placed.number, n: passed.placed.n });
  }
  const [job] = line.splice(index, 1);
  if (job === undefined) throw new Error("the line is shorter than the place chosen in it");
  return { job, events };
}
