/** The effects of the account's own events: days closed, crowd counts, requests. */
import type { Day } from "../../../time/fair-day.ts";
import type { Instant } from "../../../time/instants.ts";
import { piecesOf } from "../../state/counts.ts";
import { EMPTY_TOTALS } from "../../state/day-rows.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { StallState } from "../../state/state.ts";
import { offerParts } from "../../stock/offers.ts";
import { changeChoice, changeHour, changeTotals, hourAt, isOut } from "./daybook.ts";

type Asked = Extract<StallEvent, { readonly type: "asked" }>;

export function dayClosed(state: StallState, day: Day, at: Instant): void {
  const { closedThrough } = state.account;
  const through = closedThrough === null || day > closedThrough ? day : closedThrough;
  state.setAccount({ closedThrough: through, reopened: null });
  state.dayTotals.set(day, { ...(state.dayTotals.get(day) ?? EMPTY_TOTALS), closedAt: at });
}

export function dayReopened(state: StallState, day: Day, reason: string, at: Instant): void {
  state.setAccount({ ...state.account, reopened: day });
  const totals = state.dayTotals.get(day) ?? EMPTY_TOTALS;
  const reopenings = [...totals.reopenings, { at, reason }];
  state.dayTotals.set(day, { ...totals, closedAt: null, reopenings });
}

export function crowdTold(
  state: StallState,
  day: Day,
  traffic: { readonly passersBy: number; readonly uncertainty: number } | null,
): void {
  state.dayTotals.set(day, { ...(state.dayTotals.get(day) ?? EMPTY_TOTALS), traffic });
}

/** Adds people counted in a watch that ends now, to this hour even if the watch began in another. */
export function passersByCounted(state: StallState, people: number, seconds: number, at: Instant): void {
  changeTotals(state, at, (totals) =>
    changeHour(totals, hourAt(state, at), (row) => ({
      passersBy: row.passersBy + people,
      watchedSeconds: row.watchedSeconds + seconds,
    })),
  );
}

/** Counts a request beside the day's sales, and its wish as evidence for the next fair. */
export function noteAsk(state: StallState, event: Asked, at: Instant): void {
  const choice = state.menu === null ? undefined : offerParts(state.menu, event.offer);
  if (choice === undefined) return;
  const { offer, colour, size, garments, unmet, assumed = [], first = true, instead = false } = event;
  const chosen = { offer, blank: choice.blank.id, design: choice.design.id, colour, size };
  const out = unmet === "sold-out" && piecesOf(chosen).some((piece) => isOut(state, piece));
  changeChoice(state, chosen, at, (row) => ({
    asked: row.asked + garments,
    unmet: unmet === null ? row.unmet : { ...row.unmet, [unmet]: (row.unmet[unmet] ?? 0) + garments },
    unmetWhileOut: row.unmetWhileOut + (out ? garments : 0),
    wishes: instead
      ? row.wishes
      : {
          lines: row.wishes.lines + 1,
          colour: row.wishes.colour + (assumed.includes("colour") ? 0 : garments),
          size: row.wishes.size + (assumed.includes("size") ? 0 : garments),
        },
  }));
  if (!first) return;
  changeTotals(state, at, (totals) =>
    changeHour(totals, hourAt(state, at), (row) => ({ visits: row.visits + 1 })),
  );
}
