/** The drawer as the counter and the close-out see it, with who took what. */
import type { DrawerView } from "../../../model/accounts/drawer.ts";
import type { Day } from "../../../time/fair-day.ts";
import type { Instant } from "../../../time/instants.ts";
import { drawerOf } from "../../day/drawer.ts";
import { accountDay } from "../../state/account-day.ts";
import type { UnitOfWork } from "../../storage/unit-of-work.ts";

export function drawerView({ state, people }: UnitOfWork, day: Day | null, now: Instant): DrawerView | null {
  const shown = day ?? accountDay(state, now);
  const drawer = drawerOf(state, state.dayTotals.get(shown)?.drawer);
  if (drawer === null) return null;
  const takers = Object.entries(people.takers.get(shown) ?? {}).flatMap(([name, took]) =>
    (["cash", "card", "other"] as const).flatMap((tender) => {
      const amount = took[tender] ?? 0;
      return amount === 0 ? [] : [{ name, tender, amount }];
    }),
  );
  return { ...drawer, takers };
}
