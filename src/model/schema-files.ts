/** The schemas that are published as files, and their text. */
import { z } from "zod";
import { CloseDay, Closeout, PassersBy, ReopenDay, TellCrowd } from "./accounts/closeout.ts";
import { DayCosts } from "./accounts/day-costs.ts";
import { DaySoFar } from "./accounts/day-so-far.ts";
import { Learnt } from "./accounts/learnt.ts";
import { Lessons } from "./accounts/lessons.ts";
import { PastDays } from "./accounts/past-day.ts";
import { CarriedStall, WholeStall } from "./accounts/whole-stall.ts";
import { Problem } from "./basics/problem.ts";
import { AddStall, ChangeFair, CreateFair, FairView } from "./fair/fair.ts";
import { GatewayMapping } from "./fair/gateway.ts";
import { Throughput } from "./fair/throughput.ts";
import { Menu } from "./menu/catalogue.ts";
import { MenuView } from "./menu/menu-view.ts";
import { Rules } from "./menu/rules.ts";
import { ChatReply, ChatTurn, InboundText, OutboundText } from "./orders/chat.ts";
import { NumbersGiven, NumbersWanted } from "./orders/counter.ts";
import { OpenOrders } from "./orders/open-orders.ts";
import { CrewOrderView, OrderView, PlacedOrder } from "./orders/order.ts";
import { PlaceOrder } from "./orders/place-order.ts";
import { BoardView, JobView, QueueView } from "./orders/queue.ts";
import { StockChange, StockView } from "./orders/stock.ts";
import { AcceptedPlan, PlanTaken } from "./planning/accepted-plan.ts";
import { KeptPlan } from "./planning/kept-plan.ts";
import { PitchPlan, PitchRequest } from "./planning/pitch.ts";
import { Plan } from "./planning/plan-answer.ts";
import { PlanRequest } from "./planning/plan-request.ts";
import { PowerPlan, PowerRequest } from "./planning/power.ts";
import { PressesPlan, PressesRequest } from "./planning/presses.ts";
import { SheetPlan, SheetRequest } from "./planning/sheets.ts";

/** Schemas of what others send; fields with a default may be absent. */
const REQUESTS = {
  menu: Menu,
  rules: Rules,
  fair: CreateFair,
  "fair-change": ChangeFair,
  stall: AddStall,
  "stock-change": StockChange,
  "place-order": PlaceOrder,
  "numbers-wanted": NumbersWanted,
  "chat-turn": ChatTurn,
  "inbound-text": InboundText,
  gateway: GatewayMapping,
  "plan-request": PlanRequest,
  "accepted-plan": AcceptedPlan,
  "kept-plan": KeptPlan,
  "past-days": PastDays,
  "day-so-far": DaySoFar,
  "sheets-request": SheetRequest,
  "presses-request": PressesRequest,
  "power-request": PowerRequest,
  "pitch-request": PitchRequest,
  lessons: Lessons,
  "carried-stall": CarriedStall,
  "whole-stall": WholeStall,
  "day-costs": DayCosts,
  "close-day": CloseDay,
  "reopen-day": ReopenDay,
  "tell-crowd": TellCrowd,
  "passers-by": PassersBy,
} as const;

/** Schemas of what we send. */
const ANSWERS = {
  "fair-view": FairView,
  stock: StockView,
  order: OrderView,
  "crew-order": CrewOrderView,
  "open-orders": OpenOrders,
  "placed-order": PlacedOrder,
  "numbers-given": NumbersGiven,
  job: JobView,
  queue: QueueView,
  board: BoardView,
  "menu-view": MenuView,
  throughput: Throughput,
  problem: Problem,
  closeout: Closeout,
  learnt: Learnt,
  "chat-reply": ChatReply,
  "outbound-text": OutboundText,
  plan: Plan,
  "plan-taken": PlanTaken,
  sheets: SheetPlan,
  presses: PressesPlan,
  power: PowerPlan,
  pitch: PitchPlan,
} as const;

function text(schema: z.ZodType, io: "input" | "output", name: string): string {
  const made = z.toJSONSchema(schema, { io, target: "draft-2020-12" });
  return `${JSON.stringify({ ...made, $id: `https://stallpress.invalid/schemas/${name}` }, null, 2)}\n`;
}

/** Every schema file's name and text, in a fixed order. */
export function schemaFiles(): readonly (readonly [name: string, text: string])[] {
  const requests = Object.entries(REQUESTS).map(
    ([name, schema]) => [`${name}.json`, text(schema, "input", `${name}.json`)] as const,
  );
  const answers = Object.entries(ANSWERS).map(
    ([name, schema]) => [`${name}.json`, text(schema, "output", `${name}.json`)] as const,
  );
  return [...requests, ...answers];
}
