/** The crew's set-up routes: the menu, the stock, and whether a menu could be saved now. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { menuAdvice } from "../../../chat/advice.ts";
import { Fault } from "../../../model/basics/faults.ts";
import { ok } from "../../../model/basics/result.ts";
import { Menu } from "../../../model/menu/catalogue.ts";
import { OpenNeeds } from "../../../model/orders/open-needs.ts";
import { RefusalView } from "../../../model/orders/refusal-counts.ts";
import { StockChange, StockView } from "../../../model/orders/stock.ts";
import { entriesFromCsv } from "../../csv/csv.ts";
import { crewRead, crewRoute, crewWrite, pressRoute, stallBase } from "../../doors/crew.ts";
import { basedOn, menuTag } from "../../requests/menu-tag.ts";
import { invalid } from "../../requests/problems.ts";
import { body, idempotency, json, problems, stallPath } from "../../requests/router.ts";
import { crewTable, reads } from "./table.ts";

const MenuSet = z
  .strictObject({
    version: z.int(),
    advice: z
      .array(Fault)
      .describe("How the names will do in texts: second segments, letters texts lack, long lists"),
  })
  .meta({ id: "MenuSet" });

const MenuTried = z
  .strictObject({ errors: z.array(Fault).describe("Empty if it can be saved as it is") })
  .meta({ id: "MenuTried" });

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
  responses: { 200: json(MenuSet, "The stall's version with this menu"), ...problems },
});

const tryMenu = createRoute({
  method: "post",
  path: `${stallBase}/menu/try`,
  summary: "What would keep a menu from being saved now, with the orders it concerns; changes nothing",
  ...crewRoute,
  request: { params: stallPath, body: body(Menu) },
  responses: { 200: json(MenuTried, "As things are now"), ...problems },
});

const wholeMenu = createRoute({
  method: "get",
  path: `${stallBase}/menu/whole`,
  summary: "The menu as it was set, with settings and rules",
  ...pressRoute,
  request: { params: stallPath },
  responses: { 200: json(Menu.nullable(), "The menu, or null before the first"), ...problems },
});

const changeStock = createRoute({
  method: "post",
  path: `${stallBase}/stock`,
  summary:
    "Count, deliver or correct, as JSON or as text/csv with the columns piece and counted, delivered or corrected",
  ...pressRoute,
  request: {
    headers: idempotency,
    params: stallPath,
    body: {
      // If it were required, a csv body would be read as an empty JSON one.
      required: false,
      content: { "application/json": { schema: StockChange }, "text/csv": { schema: z.string() } },
    },
  },
  responses: { 200: json(StockView, "Afterwards"), ...problems },
});

export const crewSetupRoutes = crewTable(
  reads({
    path: "stock",
    press: true,
    summary: "Stock of every sku and transfer: on hand, promised, free",
    reply: [StockView, "Now"],
    call: (stall, generation) => stall.stock(generation),
  }),
  reads({
    path: "needs",
    press: true,
    summary: "What every open order needs of the menu and the stock",
    reply: [OpenNeeds, "Now"],
    call: (stall, generation) => stall.needs(generation),
  }),
  reads({
    path: "refusals",
    summary: "How often the stall refused something, by reason",
    reply: [RefusalView, "Since the stall was opened"],
    call: (stall, generation) => stall.refusals(generation),
  }),
)
  .openapi(setMenu, async (c) => {
    const menu = c.req.valid("json");
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.setMenu(generation, key, { type: "set-menu", menu, ...basedOn(c) }),
    );
    if (!answer.ok) return answer.refusal;
    const { version, menuVersion } = answer.value;
    return c.json({ version, advice: [...menuAdvice(menu)] }, 200, { ETag: menuTag(menuVersion) });
  })
  .openapi(tryMenu, async (c) => {
    const menu = c.req.valid("json");
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) =>
      stall.tryMenu(generation, menu),
    );
    return answer.ok ? c.json({ errors: [...answer.value] }, 200) : answer.refusal;
  })
  .openapi(wholeMenu, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) =>
      stall.wholeMenu(generation),
    );
    if (!answer.ok) return answer.refusal;
    const { menu, version } = answer.value;
    return c.json(menu, 200, { ETag: menuTag(version), "Cache-Control": "no-cache" });
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
  });
