/** Who and what is at work: presses out of order, reserves, hands, and staying open. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { PressId } from "../../../model/basics/ids.ts";
import { FloorView, Hands } from "../../../model/orders/order.ts";
import { OffMenu } from "../../../model/orders/stock.ts";
import { LiftClaims, Reserve, ReserveReturned, Undo } from "../../../model/orders/taps.ts";
import { crewRoute, crewWrite, stallBase } from "../../doors/crew.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const onPress = z.strictObject({ ...stallPath.shape, press: PressId });
const responses = { 200: json(FloorView, "The floor now"), ...problems };

const pressRoute = <const A extends string, S extends z.ZodType>(action: A, schema: S, summary: string) =>
  createRoute({
    method: "post",
    path: `${stallBase}/presses/{press}/${action}` as const,
    summary,
    ...crewRoute,
    request: { headers: idempotency, params: onPress, body: body(schema) },
    responses,
  });

const stallRoute = <const A extends string, S extends z.ZodType>(action: A, schema: S, summary: string) =>
  createRoute({
    method: "post",
    path: `${stallBase}/${action}` as const,
    summary,
    ...crewRoute,
    request: { headers: idempotency, params: stallPath, body: body(schema) },
    responses,
  });

const nothing = z.strictObject({});

export const shiftRoutes = newRouter()
  .openapi(pressRoute("down", nothing, "Out of order: what it has goes back to the line"), async (c) => {
    const { press, ...path } = c.req.valid("param");
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.onFloor(generation, key, { type: "press-down", press }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(pressRoute("up", nothing, "Working again"), async (c) => {
    const { press, ...path } = c.req.valid("param");
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.onFloor(generation, key, { type: "press-up", press }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(
    pressRoute("reserve", Reserve, "Whether to reserve garments for it; for its own tablet"),
    async (c) => {
      const { press, ...path } = c.req.valid("param");
      const { on } = c.req.valid("json");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onFloor(generation, key, { type: "set-reserve", press, on }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    pressRoute("reserve/returned", ReserveReturned, "Its own tablet gives reserved garments back untaken"),
    async (c) => {
      const { press, ...path } = c.req.valid("param");
      const { jobs } = c.req.valid("json");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onFloor(generation, key, { type: "give-reserve-back", press, jobs }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    pressRoute(
      "reserve/asked-back",
      nothing,
      "Ask its tablet for its reserve; garments come back as it confirms",
    ),
    async (c) => {
      const { press, ...path } = c.req.valid("param");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onFloor(generation, key, { type: "ask-reserve-back", press }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(stallRoute("hands", Hands, "How many people are at the presses"), async (c) => {
    const { hands } = c.req.valid("json");
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.onFloor(generation, key, { type: "set-hands", hands }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(
    stallRoute(
      "off-menu",
      OffMenu,
      "Take a blank or a transfer off the menu with what needs it, or put it back",
    ),
    async (c) => {
      const told = c.req.valid("json");
      const piece = "sku" in told ? (`sku:${told.sku}` as const) : (`transfer:${told.design}` as const);
      const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
        stall.onFloor(generation, key, { type: "set-off-menu", piece, off: told.off }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    stallRoute(
      "lift-claims",
      LiftClaims,
      "Let web orders in without limit for a while; null limits them again",
    ),
    async (c) => {
      const { minutes } = c.req.valid("json");
      const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
        stall.onFloor(generation, key, { type: "lift-claims", minutes }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    stallRoute("keep-open", Undo, "Take orders until closing time whatever the line; undo takes that back"),
    async (c) => {
      const { undo } = c.req.valid("json");
      const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
        stall.onFloor(generation, key, { type: "keep-open", open: !undo }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  );
