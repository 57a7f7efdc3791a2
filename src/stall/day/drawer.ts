/** The drawer of a day, read from the day's own row. */
import type { DrawerView } from "../../model/accounts/drawer.ts";
import { iso } from "../../time/instants.ts";
import type { DayDrawer } from "../state/day-rows.ts";
import type { StallState } from "../state/state.ts";

const TENDERS = ["cash", "card", "other"] as const;

/** Cash that should be in the drawer, in minor units. After a count at a hand-over, that count is the new start. */
export function expectedCash({ float, moves, paidOut, counts }: DayDrawer): number {
  const { in: came = 0, out: went = 0 } = moves.cash ?? {};
  const out = paidOut.reduce((sum, { amount }) => sum + amount, 0);
  const found = counts.reduce(
    (sum, { counted, expected, handOver }) => sum + (handOver ? counted - expected : 0),
    0,
  );
  return float + came - went - out + found;
}

/** The drawer of a day, with what is owed and due on orders now; null if the drawer was never opened. */
export function drawerOf(
  state: StallState,
  drawer: DayDrawer | undefined,
): Omit<DrawerView, "takers"> | null {
  if (drawer === undefined) return null;
  const { float, moves, paidOut, counts } = drawer;
  const open = [...state.orders.values()];
  const over = [...state.owed.keys()].map((key) => ({
    number: Number(key),
    amount: state.owed.get(key) ?? 0,
  }));
  return {
    float,
    tenders: TENDERS.flatMap((tender) => {
      const move = moves[tender];
      return move === undefined ? [] : [{ tender, ...move }];
    }),
    paidOut: paidOut.map(({ at, ...rest }) => ({ at: iso(at), ...rest })),
    counts: counts.map(({ at, counted, expected, handOver }) => ({
      at: iso(at),
      counted,
      expected,
      difference: counted - expected,
      handOver,
    })),
    expected: expectedCash(drawer),
    owed: [
      ...open.flatMap(({ number, giveBack }) =>
        giveBack === undefined ? [] : [{ number, amount: giveBack }],
      ),
      ...over,
    ],
    due: open.flatMap(({ number, due }) => (due === undefined ? [] : [{ number, amount: due }])),
  };
}
