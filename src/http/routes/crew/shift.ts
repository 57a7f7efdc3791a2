/** Routes of a shift: presses out of order, reserves, people at the presses, pauses, and which orders are taken. */
import { z } from "zod";
import { PressId } from "../../../model/basics/ids.ts";
import { FloorView, Hands } from "../../../model/orders/queue.ts";
import { OffMenu } from "../../../model/orders/stock.ts";
import { LiftClaims, Pause, Reserve, ReserveReturned, Undo } from "../../../model/orders/taps.ts";
import type { FloorCommand } from "../../../stall/rules/commands.ts";
import type { StallStub } from "../../doors/crew.ts";
import { type CrewCaller, crewTable, nothing, writes } from "./table.ts";

type OnFloor<B extends z.ZodType> = readonly [
  path: string,
  body: B,
  summary: string,
  command: (sent: z.output<B>) => FloorCommand,
];

/** The common members of the rows for acts on the whole floor. */
const floorRow = <B extends z.ZodType>(...[path, body, summary, command]: OnFloor<B>) => ({
  path,
  body,
  summary,
  call: (stall: StallStub, { generation, key }: CrewCaller, sent: { readonly body: z.output<B> }) =>
    stall.onFloor(generation, key, command(sent.body)),
});

/** One row: an act on the floor as a whole. */
const onFloor = <B extends z.ZodType>(...act: OnFloor<B>) =>
  writes({ ...floorRow(...act), reply: [FloorView, "The floor now"] });

/** One row: an act on a press. */
const onPress = <B extends z.ZodType>(
  act: string,
  body: B,
  summary: string,
  command: (press: PressId, sent: z.output<B>) => FloorCommand,
) =>
  writes({
    path: `presses/{press}/${act}`,
    press: true,
    at: { press: PressId },
    body,
    summary,
    reply: [FloorView, "The floor now"],
    call: (stall, { generation, key }, { at, body: sent }) =>
      stall.onFloor(generation, key, command(at.press, sent)),
  });

const Paused = z.strictObject({ paused: z.string().nullable() }).meta({ id: "Paused" });

/** One row: pauses the orders, or takes them again. */
const pausing = <B extends z.ZodType>(...act: OnFloor<B>) =>
  writes({
    ...floorRow(...act),
    reply: [Paused, "Why orders are paused now; null if they are taken"],
    show: ({ paused }: FloorView) => ({ paused }),
  });

const WebOrders = z
  .strictObject({ open: z.boolean().describe("Whether customers may order on the web") })
  .meta({ id: "WebOrders" });

export const shiftRoutes = crewTable(
  onPress("down", nothing, "Out of order: what it has goes back to the queue", (press) => ({
    type: "press-down",
    press,
  })),
  onPress("up", nothing, "Working again", (press) => ({ type: "press-up", press })),
  onPress("reserve", Reserve, "Whether to reserve garments for it; for its own tablet", (press, { on }) => ({
    type: "set-reserve",
    press,
    on,
  })),
  onPress(
    "reserve/returned",
    ReserveReturned,
    "Its own tablet gives reserved garments back that it has not taken",
    (press, { jobs }) => ({ type: "reserve-returned", press, jobs }),
  ),
  onPress(
    "reserve/asked-back",
    nothing,
    "Ask its tablet for its reserve; garments come back as the tablet confirms",
    (press) => ({ type: "reserve-asked-back", press }),
  ),
  onFloor("hands", Hands, "How many people are at the presses", ({ hands }) => ({
    type: "set-hands",
    hands,
  })),
  onFloor(
    "off-menu",
    OffMenu,
    "Take a blank or a transfer off the menu with what needs it, or put it back",
    (sent) => ({
      type: "set-off-menu",
      piece: "sku" in sent ? `sku:${sent.sku}` : `transfer:${sent.design}`,
      off: sent.off,
    }),
  ),
  onFloor(
    "lift-claims",
    LiftClaims,
    "Let web orders in without limit for a while; null limits them again",
    ({ minutes }) => ({ type: "lift-claims", minutes }),
  ),
  onFloor(
    "keep-open",
    Undo,
    "Take orders until closing time however long the queue; undo takes that back",
    ({ undo }) => ({ type: "keep-open", open: !undo }),
  ),
  pausing("pause", Pause, "Pause orders: rain, power, lunch", ({ reason }) => ({ type: "pause", reason })),
  pausing("resume", nothing, "Take orders again; every promise moves by the length of the pause", () => ({
    type: "resume",
  })),
  writes({
    path: "web-orders",
    body: WebOrders,
    summary: "Stop orders from the web, or take them again; texts and the counter go on",
    reply: [WebOrders, "As it is now"],
    call: (stall, { generation, key }, { body: { open } }) =>
      stall.setWebOrders(generation, key, { type: "set-web-orders", open }),
  }),
);
