/** What the pages ask while the crew edits the menu: would it hold, and whom does it concern. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { Fault } from "../../../model/basics/faults.ts";
import { Menu } from "../../../model/menu/catalogue.ts";
import { OpenNeeds } from "../../../model/orders/open-needs.ts";
import { crewRead, crewRoute, stallBase } from "../../doors/crew.ts";
import { body, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const MenuTried = z
  .strictObject({ errors: z.array(Fault).describe("Empty where it can be saved as it is") })
  .meta({ id: "MenuTried" });

const tryMenu = createRoute({
  method: "post",
  path: `${stallBase}/menu/try`,
  summary: "What would keep a menu from being saved now, the orders it concerns named; changes nothing",
  ...crewRoute,
  request: { params: stallPath, body: body(Menu) },
  responses: { 200: json(MenuTried, "As things stand"), ...problems },
});

const needs = createRoute({
  method: "get",
  path: `${stallBase}/needs`,
  summary: "What every open order needs of the menu and the stock",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(OpenNeeds, "Now"), ...problems },
});

export const menuEditRoutes = newRouter()
  .openapi(tryMenu, async (c) => {
    const menu = c.req.valid("json");
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) =>
      stall.tryMenu(generation, menu),
    );
    return answer.ok ? c.json({ errors: [...answer.value] }, 200) : answer.refusal;
  })
  .openapi(needs, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) => stall.needs(generation));
    return answer.ok ? c.json(answer.value, 200, { "Cache-Control": "no-store" }) : answer.refusal;
  });
