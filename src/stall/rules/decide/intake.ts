/** Whether the stall takes new orders now. */

import type { Menu } from "../../../model/menu/catalogue.ts";
import type { Refusal } from "../../../model/orders/refusal.ts";
import { type Instant, MINUTE } from "../../../time/instants.ts";
import { quoteMinutes } from "../../line/quote.ts";
import { openingAt } from "../../state/opening.ts";
import type { Line } from "../../state/shapes/line.ts";
import type { StallState } from "../../state/state.ts";
import { accept, type Decision, type Of, refuse } from "../commands.ts";

/** The organiser's stop of all orders, as the refusal of one more garment to anybody, the crew included. */
export const fairStopRefusal = ({ status: { fairStop } }: StallState): Refusal | undefined =>
  fairStop ? { code: "fair-stopped", reason: fairStop.reason } : undefined;

/** Why a customer cannot order just now: outside the hours, paused, or no time left to press it. */
export function intakeRefusal(
  state: StallState,
  menu: Menu,
  lines: readonly Line[],
  now: Instant,
): Refusal | undefined {
  const opening = openingAt(state, now);
  if (!opening.open) return { code: "not-open", opens: opening.opens };
  const stop = fairStopRefusal(state);
  if (stop !== undefined) return stop;
  if (state.status.paused !== null) return { code: "paused", reason: state.status.paused.reason };
  if (state.status.keptOpen === opening.closes) return undefined;
  const minutes = quoteMinutes(state, menu, lines, now);
  if (now + (minutes + menu.rules.closingMarginMinutes) * MINUTE > opening.closes) {
    return { code: "line-too-long", closes: opening.closes, minutes };
  }
  return undefined;
}

/** Keeps intake open until closing time however long the line, or lets it close automatically again. */
export function keepOpen(state: StallState, { open }: Of<"keep-open">, now: Instant): Decision {
  const opening = openingAt(state, now);
  if (!opening.open) return refuse({ code: "not-open", opens: opening.opens });
  const closes = open ? opening.closes : null;
  return closes === state.status.keptOpen ? accept() : accept({ type: "kept-open", closes });
}
