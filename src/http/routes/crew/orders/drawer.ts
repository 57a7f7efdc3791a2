/** The drawer: float, pay-outs, counts and hand-overs. */
import type { z } from "zod";
import { DrawerCount, DrawerView, PayOut, SetFloat } from "../../../../model/accounts/drawer.ts";
import type { DrawerCommand } from "../../../../stall/rules/account-commands.ts";
import { crewTable, reads, writes } from "../table.ts";

/** One row: an act on today's drawer. */
const onDrawer = <B extends z.ZodType>(
  act: DrawerCommand["type"],
  body: B,
  summary: string,
  command: (sent: z.output<B>) => DrawerCommand,
) =>
  writes({
    path: `drawer/${act}`,
    body,
    summary,
    reply: [DrawerView.nullable(), "The drawer now"],
    call: (stall, { generation, key }, sent) => stall.onDrawer(generation, key, command(sent.body)),
  });

export const drawerRoutes = crewTable(
  reads({
    path: "drawer",
    summary: "Today's drawer: what should be there, what is owed, and who took what",
    reply: [DrawerView.nullable(), "Now; null before its float was set"],
    call: (stall, generation) => stall.drawer(generation, null),
  }),
  onDrawer("float-set", SetFloat, "What is in the drawer before the day's first sale", (sent) => ({
    type: "float-set",
    ...sent,
  })),
  onDrawer("paid-out", PayOut, "Cash taken out for something else than a customer", (sent) => ({
    type: "paid-out",
    ...sent,
  })),
  onDrawer("drawer-counted", DrawerCount, "The cash is counted, at a hand-over too", (sent) => ({
    type: "drawer-counted",
    ...sent,
  })),
);
