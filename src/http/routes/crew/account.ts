/** The account of a stall's days: close-out, costs, the crowd, and what the days taught. */
import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { accepts } from "hono/accepts";
import { z } from "zod";
import { learntFrom } from "../../../lessons/learnt.ts";
import {
  CloseDay,
  Closeout,
  CountedPassersBy,
  Day,
  DayStanding,
  PassersBy,
  ReopenDay,
  SetCosts,
  TellCrowd,
} from "../../../model/accounts/closeout.ts";
import { DaySoFar } from "../../../model/accounts/day-so-far.ts";
import { Learnt, TakeLessons } from "../../../model/accounts/learnt.ts";
import { Lessons } from "../../../model/accounts/lessons.ts";
import { KeptPlan } from "../../../model/planning/kept-plan.ts";
import type { DayCommand } from "../../../stall/rules/account-commands.ts";
import { closeoutCsv } from "../../csv/closeout-csv.ts";
import { csvHeaders } from "../../csv/csv-headers.ts";
import { crewRead, crewRoute, stallBase } from "../../doors/crew.ts";
import type { App } from "../../requests/env.ts";
import { json, problems, stallPath } from "../../requests/router.ts";
import { crewTable, reads, writes } from "./table.ts";

const read = createRoute({
  method: "get",
  path: `${stallBase}/closeout`,
  summary: "A day's account: stock, sales, money, waste, waits; text/csv by Accept",
  ...crewRoute,
  request: {
    params: stallPath,
    query: z.strictObject({ day: Day.optional().describe("The latest day if left out") }),
  },
  responses: {
    200: {
      description: "The account",
      content: { "application/json": { schema: Closeout }, "text/csv": { schema: z.string() } },
    },
    ...problems,
  },
});

const learnt = createRoute({
  method: "get",
  path: `${stallBase}/lessons/learnt`,
  summary: "What the lessons come to: shares, orders per hundred passers-by, spoilage, each with its span",
  ...crewRoute,
  request: { params: stallPath, query: z.object({ kind: z.string().min(1).max(40).optional() }) },
  responses: { 200: json(Learnt, "With nine-in-ten spans"), ...problems },
});

/** One row: an act on the account of a day. */
const onDay = <B extends z.ZodType>(
  act: string,
  body: B,
  summary: string,
  command: (sent: z.output<B>) => DayCommand,
) =>
  writes({
    path: `closeout/${act}`,
    body,
    summary,
    reply: [DayStanding, "The day now"],
    call: (stall, { generation, key }, sent) => stall.onAccount(generation, key, command(sent.body)),
  });

const wantsSheet = (c: Context<App>): boolean =>
  accepts(c, {
    header: "Accept",
    supports: ["application/json", "text/csv"],
    default: "application/json",
  }) === "text/csv";

export const accountRoutes = crewTable(
  onDay(
    "close",
    CloseDay,
    "Close a day: its counts are frozen; what comes later counts to the next day",
    (sent) => ({
      type: "close-day",
      ...sent,
    }),
  ),
  onDay(
    "reopen",
    ReopenDay,
    "Open a closed day again, with a reason; what comes now counts to it",
    (sent) => ({
      type: "reopen-day",
      ...sent,
    }),
  ),
  onDay("costs", SetCosts, "What the day cost: blanks, transfers, fees, wages, card fees", (sent) => ({
    type: "set-costs",
    ...sent,
  })),
  onDay(
    "crowd",
    TellCrowd,
    "How many people passed on a day, as the organiser counted; null takes it back",
    (sent) => ({ type: "tell-crowd", ...sent }),
  ),
  writes({
    path: "passers-by",
    body: PassersBy,
    summary: "People the crew counted walking past while it watched",
    reply: [CountedPassersBy, "All that were counted this day"],
    call: (stall, { generation, key }, { body }) =>
      stall.countPassersBy(generation, key, { type: "count-passers-by", ...body }),
  }),
  reads({
    path: "plan",
    summary: "The plan that the stall was filled from; null if it was filled from none",
    reply: [KeptPlan.nullable(), "Costs, and what is expected of the day"],
    call: (stall, generation) => stall.keptPlan(generation),
  }),
  reads({
    path: "day-so-far",
    summary:
      "What was ordered so far against the plan, what will be left, and what runs out; null without a plan",
    reply: [DaySoFar.nullable(), "As of now"],
    call: (stall, generation) => stall.daySoFar(generation),
  }),
  reads({
    path: "lessons",
    summary:
      "What each day taught, as POST /v1/plans takes it in `lessons`; with the lessons of other fairs that were taken in",
    reply: [z.array(Lessons), "One entry a day"],
    call: (stall, generation) => stall.lessons(generation),
    show: (lessons: readonly Lessons[]) => [...lessons],
  }),
  writes({
    path: "lessons",
    body: TakeLessons,
    summary: "Take in what other fairs taught; the same lessons count once, by their id",
    reply: [z.strictObject({ taken: z.int() }), "How many"],
    call: (stall, { generation, key }, { body: { lessons } }) =>
      stall.takeLessons(generation, key, { type: "take-lessons", lessons }),
  }),
)
  .openapi(read, async (c) => {
    const { day } = c.req.valid("query");
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) =>
      stall.closeout(generation, day ?? null),
    );
    if (!answer.ok) return answer.refusal;
    const { value } = answer;
    return wantsSheet(c)
      ? c.body(closeoutCsv(value), 200, csvHeaders(`closeout-${value.day}`))
      : c.json(value, 200);
  })
  .openapi(learnt, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) => stall.lessons(generation));
    return answer.ok ? c.json(learntFrom(answer.value, c.req.valid("query").kind), 200) : answer.refusal;
  });
