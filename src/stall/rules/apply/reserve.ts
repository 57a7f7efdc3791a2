/** What releasing a press's reserve does to the orders and to the press. */

import type { PressId } from "../../../model/basics/ids.ts";
import type { Instant } from "../../../time/instants.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { StallState } from "../../state/state.ts";
import { changeJob, inLine } from "./rows.ts";

/** The garments wait for any press again, each with the mark that the silent press may have pressed it. */
export function letGo(
  state: StallState,
  { press, silentSince, jobs }: Extract<StallEvent, { readonly type: "reserve-let-go" }>,
  at: Instant,
): void {
  for (const garment of jobs)
    changeJob(state, garment, (job) => ({
      ...inLine(job, at),
      stage: "waiting",
      letGo: [...(job.letGo ?? []).filter((other) => other.press !== press), { press, silentSince }],
    }));
  state.presses.set(press, { ...state.press(press), letGo: { at, silentSince, jobs } });
}

/** The marks stay: another press may have begun such a garment before the tablet was back. */
export function letGoShown(state: StallState, press: PressId): void {
  const { letGo: _, ...rest } = state.press(press);
  state.presses.set(press, rest);
}
