/** What the crew sets up and keeps right: menu, stock, pauses. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { menuAdvice } from "../../../chat/advice.ts";
import { Fault } from "../../../model/basics/faults.ts";
import { ok } from "../../../model/basics/result.ts";
import { Menu } from "../../../model/menu/catalogue.ts";
import { RefusalView } from "../../../model/orders/refusal-counts.ts";
import { StockChange, StockView } from "../../../model/orders/stock.ts";
import { Pause } from "../../../model/orders/taps.ts";
import { entriesFromCsv } from "../../csv/csv.ts";
import { crewRead, crewRoute, crewWrite, stallBase } from "../../doors/crew.ts";
import { basedOn, menuTag } from "../../requests/menu-tag.ts";
import { invalid } from "../../requests/problems.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const MenuSet = z
  .strictObject({
    version: z.int(),
    advice: z
      .array(Fault)
      .describe("How the names will do in texts: second segments, letters texts lack, long lists"),
  })
  .meta({ id: "MenuSet" });
const Paused = z.strictObject({ paused: z.string().nullable() }).meta({ id: "Paused" });

const setMenu = createRoute({
  method: "put",
  path: `${stallBase}/menu`,
  summary: "Set blanks, designs, offers, presses and rules: all of it or, with every fault listed, none",
  ...crewRoute,
  request: {
    headers: idempotency.extend({
      "if-match": z.string().optional().describe("The menu's entity tag that the edit began from"),
    }),
    params: stallPath,
    body: body(Menu),
  },
  responses: { 200: json(MenuSet, "The version in which it stands"), ...problems },
});

const wholeMenu = createRoute({
  method: "get",
  path: `${stallBase}/menu/whole`,
  summary: "The menu as it was set, with settings and rules",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(Menu.nullable(), "The menu, or null before the first"), ...problems },
});

const readStock = createRoute({
  method: "get",
  path: `${stallBase}/stock`,
  summary: "Stock of every sku and transfer: on hand, promised, free",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(StockView, "Now"), ...problems },
});

const changeStock = createRoute({
  method: "post",
  path: `${stallBase}/stock`,
  summary:
    "Count, deliver or correct, as JSON or as text/csv with the columns piece and counted, delivered or corrected",
  ...crewRoute,
  request: {
    headers: idempotency,
    params: stallPath,
    body: {
      // Were it required, a csv body would be read as an empty JSON one.
      required: false,
      content: { "application/json": { schema: StockChange }, "text/csv": { schema: z.string() } },
    },
  },
  responses: { 200: json(StockView, "Afterwards"), ...problems },
});

const pauseRoute = <const A extends string, S extends z.ZodType>(action: A, schema: S, summary: string) =>
  createRoute({
    method: "post",
    path: `${stallBase}/${action}` as const,
    summary,
    ...crewRoute,
    request: { headers: idempotency, params: stallPath, body: body(schema) },
    responses: { 200: json(Paused, "Whether intake is stopped now, and why"), ...problems },
  });

const WebOrders = z
  .strictObject({ open: z.boolean().describe("Whether customers may order on the web") })
  .meta({ id: "WebOrders" });

const webOrders = createRoute({
  method: "post",
  path: `${stallBase}/web-orders`,
  summary: "Stop orders from the web, or take them again; texts and the counter go on",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(WebOrders) },
  responses: { 200: json(WebOrders, "As it is now"), ...problems },
});

const refusals = createRoute({
  method: "get",
  path: `${stallBase}/refusals`,
  summary: "How often the stall refused something, by reason",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(RefusalView, "Since the stall was opened"), ...problems },
});

export const crewSetupRoutes = newRouter()
  .openapi(setMenu, async (c) => {
    const menu = c.req.valid("json");
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.setMenu(generation, key, { type: "set-menu", menu, ...basedOn(c) }),
    );
    if (!answer.ok) return answer.refusal;
    const { version, menuVersion } = answer.value;
    return c.json({ version, advice: [...menuAdvice(menu)] }, 200, { ETag: menuTag(menuVersion) });
  })
  .openapi(wholeMenu, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) =>
      stall.wholeMenu(generation),
    );
    if (!answer.ok) return answer.refusal;
    const { menu, version } = answer.value;
    return c.json(menu, 200, { ETag: menuTag(version), "Cache-Control": "no-cache" });
  })
  .openapi(readStock, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) => stall.stock(generation));
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(changeStock, async (c) => {
    const isCsv = c.req.header("Content-Type")?.startsWith("text/csv") === true;
    const change = c.req.valid("json") as StockChange | undefined; // JSON was checked against that schema
    if (!isCsv && change?.entries === undefined)
      return invalid(c, [{ pointer: "#", detail: "send the entries as JSON or csv" }]);
    const sheet = isCsv || change === undefined ? entriesFromCsv(await c.req.text()) : ok(change);
    if (!sheet.ok) return invalid(c, sheet.refusal);
    const { entries } = sheet.value;
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.changeStock(generation, key, { type: "change-stock", entries }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(pauseRoute("pause", Pause, "Stop intake: rain, power, lunch"), async (c) => {
    const { reason } = c.req.valid("json");
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.onFloor(generation, key, { type: "pause", reason }),
    );
    return answer.ok ? c.json({ paused: answer.value.paused }, 200) : answer.refusal;
  })
  .openapi(
    pauseRoute("resume", z.strictObject({}), "Take orders again; everybody's promise moves by the pause"),
    async (c) => {
      const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
        stall.onFloor(generation, key, { type: "resume" }),
      );
      return answer.ok ? c.json({ paused: answer.value.paused }, 200) : answer.refusal;
    },
  )
  .openapi(webOrders, async (c) => {
    const { open } = c.req.valid("json");
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.setWebOrders(generation, key, { type: "set-web-orders", open }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(refusals, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) => stall.refusals(generation));
    return answer.ok ? c.json(answer.value, 200, { "Cache-Control": "no-store" }) : answer.refusal;
  });
