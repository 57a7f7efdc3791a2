/** The crew's commands about money and the account of its days. */

import type { DayCosts } from "../../model/accounts/day-costs.ts";
import type { PayOutReason } from "../../model/accounts/drawer.ts";
import type { Lessons } from "../../model/accounts/lessons.ts";
import type { Day } from "../../time/fair-day.ts";

/** The crew's commands about the drawer. */
export type DrawerCommand =
  | { readonly type: "float-set"; readonly amount: number }
  | { readonly type: "paid-out"; readonly amount: number; readonly reason: PayOutReason }
  | { readonly type: "drawer-counted"; readonly counted: number; readonly handOver: boolean };

/** The crew's commands about the account of its days. */
export type AccountCommand =
  | { readonly type: "close-day"; readonly day: Day }
  | { readonly type: "reopen-day"; readonly day: Day; readonly reason: string }
  | { readonly type: "set-costs"; readonly day: Day; readonly costs: DayCosts }
  | {
      readonly type: "tell-crowd";
      readonly day: Day;
      readonly crowd: { readonly passersBy: number; readonly uncertainty: number } | null;
    }
  /** People counted walking past for this many seconds, up to now. */
  | { readonly type: "count-passers-by"; readonly people: number; readonly seconds: number }
  | { readonly type: "take-lessons"; readonly lessons: readonly Lessons[] };
/** The crew's commands about one day's account. */

export type DayCommand = Extract<AccountCommand, { readonly day: Day }>;
