/**
 * The crew's routes as a table. A row names the address below the stall's, the body's schema, the command, and the
 * reply; the door, the write's key and the refusals are the same for every row.
 */
import { createRoute } from "@hono/zod-openapi";
import type { Context, Handler } from "hono";
import { z } from "zod";
import type { FairId, StallId } from "../../../model/basics/ids.ts";
import type { WriteKey } from "../../../model/basics/write-key.ts";
import type { Answer } from "../../../model/orders/refusal.ts";
import { crewRead, crewRoute, crewWrite, pressRoute, type StallStub, stallBase } from "../../doors/crew.ts";
import type { App } from "../../requests/env.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

/** A request's values, checked against the row's schemas. */
type Sent<P extends z.ZodRawShape, B> = { readonly at: z.output<z.ZodObject<P>>; readonly body: B };

type Row<P extends z.ZodRawShape, S extends z.ZodType, T> = {
  /** The address below the stall's. */
  readonly path: string;
  readonly summary: string;
  /** The names in the address. */
  readonly at?: P;
  /** The reply's schema and its description. */
  readonly reply: readonly [schema: S, description: string];
  /** The value as it is shown; absent if the stall answers with just that. */
  readonly show?: (value: T) => z.input<S>;
  /** For a key of the presses too. */
  readonly press?: true;
  /** A route of earlier pages: it answers as before, and nothing new calls it. */
  readonly deprecated?: true;
};

type WriteRow<P extends z.ZodRawShape, B extends z.ZodType, S extends z.ZodType, T> = Row<P, S, T> & {
  readonly body: B;
  readonly call: (stall: StallStub, who: CrewCaller, sent: Sent<P, z.output<B>>) => Promise<Answer<T>>;
};

/** Which crew key a write came with, and the write's own key. */
export type CrewCaller = { readonly generation: number; readonly key: WriteKey };

type ReadRow<P extends z.ZodRawShape, S extends z.ZodType, T> = Row<P, S, T> & {
  readonly call: (stall: StallStub, generation: number, sent: Sent<P, null>) => Promise<Answer<T>>;
};

export type CrewRoute = { readonly route: ReturnType<typeof createRoute>; readonly handler: Handler<App> };

/** The names in the address and the body, as the route's schemas have read them. */
function sentTo(c: Context<App>) {
  // The router has checked both before it calls the handler; its own types are those of one route only.
  const { valid } = c.req as unknown as { readonly valid: (part: "param" | "json") => unknown };
  const { fair, stall, ...at } = valid.call(c.req, "param") as {
    readonly fair: FairId;
    readonly stall: StallId;
  };
  return { place: { fair, stall }, at, body: () => valid.call(c.req, "json") };
}

const routeOf = (
  method: "get" | "post",
  {
    path,
    summary,
    at = {},
    reply: [schema, description],
    press,
    deprecated,
  }: Row<z.ZodRawShape, z.ZodType, never>,
  request: object,
) =>
  createRoute({
    method,
    path: `${stallBase}/${path}`,
    summary,
    ...(press === undefined ? crewRoute : pressRoute),
    ...(deprecated === undefined ? {} : { deprecated }),
    request: { params: z.strictObject({ ...stallPath.shape, ...at }), ...request },
    responses: { 200: json(schema, description), ...problems },
  });

/** A row that changes something: once, however often it is sent. */
export function writes<T, B extends z.ZodType, S extends z.ZodType, P extends z.ZodRawShape = z.ZodRawShape>(
  row: WriteRow<P, B, S, T>,
): CrewRoute {
  return {
    route: routeOf("post", row, { headers: idempotency, body: body(row.body) }),
    handler: async (c) => {
      const sent = sentTo(c);
      const answer = await crewWrite(c, sent.place, (stall, generation, key) =>
        row.call(stall, { generation, key }, { at: sent.at, body: sent.body() } as Sent<P, z.output<B>>),
      );
      return answer.ok
        ? c.json(row.show === undefined ? answer.value : row.show(answer.value), 200)
        : answer.refusal;
    },
  };
}

/** A row that only reads. */
export function reads<T, S extends z.ZodType, P extends z.ZodRawShape = z.ZodRawShape>(
  row: ReadRow<P, S, T>,
): CrewRoute {
  return {
    route: routeOf("get", row, {}),
    handler: async (c) => {
      const sent = sentTo(c);
      const answer = await crewRead(c, sent.place, (stall, generation) =>
        row.call(stall, generation, { at: sent.at, body: null } as Sent<P, null>),
      );
      return answer.ok
        ? c.json(row.show === undefined ? answer.value : row.show(answer.value), 200)
        : answer.refusal;
    },
  };
}

/** A router with these rows. */
export function crewTable(...rows: readonly CrewRoute[]) {
  const router = newRouter();
  for (const { route, handler } of rows) router.openapi(route, handler as never); // its reply is the row's own schema
  return router;
}

/** The body of a write that says nothing beside its address. */
export const nothing = z.strictObject({});
