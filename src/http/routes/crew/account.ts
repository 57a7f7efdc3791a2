/** The account of a stall's days: close-out, costs, the crowd. */
import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { accepts } from "hono/accepts";
import { z } from "zod";
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
import { closeoutCsv } from "../../csv/closeout-csv.ts";
import { csvHeaders } from "../../csv/csv-sheet.ts";
import { crewRead, crewRoute, crewWrite, stallBase } from "../../doors/crew.ts";
import type { App } from "../../requests/env.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const read = createRoute({
  method: "get",
  path: `${stallBase}/closeout`,
  summary: "A day's account: stock, sales, money, waste, waits; text/csv by Accept",
  ...crewRoute,
  request: {
    params: stallPath,
    query: z.strictObject({ day: Day.optional().describe("Left out: the latest") }),
  },
  responses: {
    200: {
      description: "The account",
      content: { "application/json": { schema: Closeout }, "text/csv": { schema: z.string() } },
    },
    ...problems,
  },
});

const dayRoute = <const A extends string, S extends z.ZodType>(action: A, schema: S, summary: string) =>
  createRoute({
    method: "post",
    path: `${stallBase}/closeout/${action}` as const,
    summary,
    ...crewRoute,
    request: { headers: idempotency, params: stallPath, body: body(schema) },
    responses: { 200: json(DayStanding, "The day now"), ...problems },
  });

const passersBy = createRoute({
  method: "post",
  path: `${stallBase}/passers-by`,
  summary: "People the crew counted walking past while it watched",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(PassersBy) },
  responses: { 200: json(CountedPassersBy, "Counted in all, this day"), ...problems },
});

const wantsSheet = (c: Context<App>): boolean =>
  accepts(c, {
    header: "Accept",
    supports: ["application/json", "text/csv"],
    default: "application/json",
  }) === "text/csv";

export const accountRoutes = newRouter()
  .openapi(read, async (c) => {
    const { day } = c.req.valid("query");
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) =>
      stall.closeout(generation, day ?? null),
    );
    if (!answer.ok) return answer.refusal;
    const { value } = answer;
    const sheet = { ...csvHeaders(`closeout-${value.day}`), "Cache-Control": "no-store" };
    return wantsSheet(c)
      ? c.body(closeoutCsv(value), 200, sheet)
      : c.json(value, 200, { "Cache-Control": "no-store" });
  })
  .openapi(
    dayRoute("close", CloseDay, "Close a day: its counts are frozen, what comes later is the next day's"),
    async (c) => {
      const command = { type: "close-day", ...c.req.valid("json") } as const;
      const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
        stall.onAccount(generation, key, command),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    dayRoute("reopen", ReopenDay, "Open a closed day again, with a reason; what comes now counts to it"),
    async (c) => {
      const command = { type: "reopen-day", ...c.req.valid("json") } as const;
      const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
        stall.onAccount(generation, key, command),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    dayRoute("costs", SetCosts, "What the day cost: blanks, transfers, fees, wages, card fees"),
    async (c) => {
      const command = { type: "set-costs", ...c.req.valid("json") } as const;
      const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
        stall.onAccount(generation, key, command),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    dayRoute("crowd", TellCrowd, "How many came past on a day, as the organiser counted; null takes it back"),
    async (c) => {
      const command = { type: "tell-crowd", ...c.req.valid("json") } as const;
      const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
        stall.onAccount(generation, key, command),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(passersBy, async (c) => {
    const command = { type: "count-passers-by", ...c.req.valid("json") } as const;
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.countPassersBy(generation, key, command),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  });
