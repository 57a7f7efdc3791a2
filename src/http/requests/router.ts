/** The router every route file starts from: answers bad input with a problem, never with zod's own words. */
import { OpenAPIHono } from "@hono/zod-openapi";
import { z } from "zod";
import { FairId, StallId } from "../../model/basics/ids.ts";
import { Problem } from "../../model/basics/problem.ts";
import { faultsOf } from "../../model/basics/request-faults.ts";
import type { App } from "./env.ts";
import { invalid, PROBLEM_TYPE } from "./problems.ts";

export const newRouter = () =>
  new OpenAPIHono<App>({
    defaultHook: (result, c) => {
      if (!result.success) return invalid(c, faultsOf(result.error));
      if (result.target === "json") c.set("read", true);
      return undefined;
    },
  });

export const fairPath = z.strictObject({ fair: FairId });
export const stallPath = z.strictObject({ fair: FairId, stall: StallId });

/** A JSON body in the OpenAPI document. */
export const json = <S extends z.ZodType>(schema: S, description: string) => ({
  description,
  content: { "application/json": { schema } },
});

/** A JSON request body. */
export const body = <S extends z.ZodType>(schema: S) => ({
  required: true,
  content: { "application/json": { schema } },
});

/** Any refusal, for every route. */
export const problems = {
  "4XX": {
    description: "Refused: what, why, and what to do",
    content: { [PROBLEM_TYPE]: { schema: Problem } },
  },
} as const;

export const idempotency = z.object({
  "idempotency-key": z
    .string()
    // A request without one is refused in words of its own, so it passes here.
    .optional()
    .openapi({
      param: { required: true },
      description: "New for each write, the same when it is repeated",
    }),
});
