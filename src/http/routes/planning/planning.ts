/** Before the fair: a request in, an answer out. Nothing is read but the request, and nothing is kept. */

import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { accepts } from "hono/accepts";
import { z } from "zod";
import { inTurns } from "../../../maths/work.ts";
import type { MendableFault } from "../../../model/basics/faults.ts";
import { mendable } from "../../../model/basics/request-faults.ts";
import { PitchPlan, PitchRequest } from "../../../model/planning/pitch.ts";
import { Plan } from "../../../model/planning/plan-answer.ts";
import { PlanRequest } from "../../../model/planning/plan-request.ts";
import { PowerPlan, PowerRequest } from "../../../model/planning/power.ts";
import { PressesPlan, PressesRequest } from "../../../model/planning/presses.ts";
import { SheetPlan, SheetRequest } from "../../../model/planning/sheets.ts";
import { planPitch } from "../../../planning/pitch/pitch.ts";
import { planInSteps } from "../../../planning/plan.ts";
import { planTable } from "../../../planning/plan-table.ts";
import { planPower } from "../../../planning/power/power.ts";
import { planPresses } from "../../../planning/presses/presses.ts";
import { planSheetsInSteps } from "../../../planning/sheets/sheets.ts";
import { forPlanners, turn } from "../../doors/doors.ts";
import type { App } from "../../requests/env.ts";
import { problem } from "../../requests/problems.ts";
import { body, json, newRouter, problems } from "../../requests/router.ts";

const plans = createRoute({
  method: "post",
  path: "/v1/plans",
  summary: "What to bring, how to run the stall, whether the day makes money, and any other part asked for",
  tags: ["planning"],
  ...forPlanners,
  request: { body: body(PlanRequest) },
  responses: {
    200: {
      description: "The plan; as a table with one figure in each row (RFC 4180) if text/csv is accepted",
      content: { "application/json": { schema: Plan }, "text/csv": { schema: z.string() } },
    },
    ...problems,
  },
});

const sheets = createRoute({
  method: "post",
  path: "/v1/sheets",
  summary: "Gang sheets: the layouts and copies to order",
  tags: ["planning"],
  ...forPlanners,
  request: { body: body(SheetRequest) },
  responses: { 200: json(SheetPlan, "Layouts, copies, and how far from the best they may be"), ...problems },
});

const presses = createRoute({
  method: "post",
  path: "/v1/presses",
  summary: "How many presses and hands: waits, walks and earnings for each number of them, on given days",
  tags: ["planning"],
  ...forPlanners,
  request: { body: body(PressesRequest) },
  responses: {
    200: json(PressesPlan, "Every number tried, what one more is worth, and the pinch"),
    ...problems,
  },
});

const power = createRoute({
  method: "post",
  path: "/v1/power",
  summary: "Loads over circuits, cords, generator, and what to order: an estimate with its cautions",
  tags: ["planning"],
  ...forPlanners,
  request: { body: body(PowerRequest) },
  responses: { 200: json(PowerPlan, "The power plan"), ...problems },
});

const pitch = createRoute({
  method: "post",
  path: "/v1/pitch",
  summary: "Where everything stands on the pitch, the hot side out of the public's reach",
  tags: ["planning"],
  ...forPlanners,
  request: { body: body(PitchRequest) },
  responses: { 200: json(PitchPlan, "The pitch, to scale, in millimetres"), ...problems },
});

/** Lists every fault at once: its place, and how to fix it. */
function faulty(c: Context<App>, faults: readonly MendableFault[]) {
  const [first] = faults;
  const errors = faults.map(({ pointer, detail, mend }) => ({ pointer, detail: `${detail}; ${mend}` }));
  const told = first === undefined ? "" : ` The first: ${first.pointer} ${first.detail}; ${first.mend}.`;
  return problem(c, "plan-faults", [
    422,
    "This cannot be planned",
    `${faults.length === 1 ? "One thing stands" : `${faults.length} things stand`} in the way.${told}`,
    { errors },
  ]);
}

/** A request of the wrong shape is answered like any other that cannot be planned. */
const misshapen = (
  result: { readonly success: true } | { readonly success: false; readonly error: z.ZodError },
  c: Context<App>,
) => (result.success ? undefined : faulty(c, mendable(result.error)));

const wantsTable = (c: Context<App>): boolean =>
  accepts(c, {
    header: "Accept",
    supports: ["application/json", "text/csv"],
    default: "application/json",
  }) === "text/csv";

export const planningRoutes = newRouter()
  .openapi(
    plans,
    async (c) => {
      const outcome = await inTurns(planInSteps(c.req.valid("json")), turn);
      if (!outcome.ok) return faulty(c, outcome.refusal);
      return wantsTable(c)
        ? c.body(planTable(outcome.value), 200, {
            "Content-Type": "text/csv; charset=utf-8; header=present",
          })
        : c.json(outcome.value, 200);
    },
    misshapen,
  )
  .openapi(
    sheets,
    async (c) => {
      const answer = await inTurns(planSheetsInSteps(c.req.valid("json")), turn);
      if (answer.kind === "plan") return c.json(answer, 200);
      return faulty(
        c,
        answer.faults.map(({ pointer, fault, mend }) => ({ pointer: `#${pointer}`, detail: fault, mend })),
      );
    },
    misshapen,
  )
  .openapi(
    presses,
    async (c) => {
      const outcome = planPresses(c.req.valid("json"));
      return outcome.ok ? c.json(outcome.value, 200) : faulty(c, outcome.refusal);
    },
    misshapen,
  )
  .openapi(
    power,
    async (c) => {
      const outcome = planPower(c.req.valid("json"));
      return outcome.ok ? c.json(outcome.value, 200) : faulty(c, outcome.refusal);
    },
    misshapen,
  )
  .openapi(
    pitch,
    async (c) => {
      const outcome = planPitch(c.req.valid("json"));
      return outcome.ok ? c.json(outcome.value, 200) : faulty(c, outcome.refusal);
    },
    misshapen,
  );
