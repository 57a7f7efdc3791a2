/** The crew fills its stall from an accepted plan: the menu and the opening stock, in one step. */
import { createRoute } from "@hono/zod-openapi";
import { faultsOf } from "../../../model/basics/request-faults.ts";
import { Menu } from "../../../model/menu/catalogue.ts";
import { StockChange } from "../../../model/orders/stock.ts";
import { AcceptedPlan, PlanTaken } from "../../../model/planning/accepted-plan.ts";
import { type Filled, menuFromPlan } from "../../../planning/accepted.ts";
import { keptPlan } from "../../../planning/kept.ts";
import { crewRead, crewRoute, crewWrite, stallBase } from "../../doors/crew.ts";
import { invalid } from "../../requests/problems.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const acceptPlan = createRoute({
  method: "post",
  path: `${stallBase}/plan`,
  summary:
    "Fill the menu, the opening stock and the rack from an accepted plan: all or, with every fault listed, nothing",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(AcceptedPlan) },
  responses: { 200: json(PlanTaken, "The stock as it opens, and what to look at first"), ...problems },
});

/** A fault of the generated menu, at the place in the plan request that the figure came from. */
const inRequest = (pointer: string, { offersFrom }: Filled): string =>
  pointer
    .replace(/^#\/(?=blanks|designs|offers|presses|currency|rules)/, "#/request/")
    .replace(/^(#\/request\/offers\/)(\d+)/, (_, place, at) => `${place}${offersFrom[Number(at)] ?? at}`);

export const acceptedPlanRoutes = newRouter().openapi(acceptPlan, async (c) => {
  const place = c.req.valid("param");
  const now = await crewRead(c, place, (stall, generation) => stall.wholeMenu(generation));
  if (!now.ok) return now.refusal;
  const accepted = c.req.valid("json");
  const filled = menuFromPlan(accepted, now.value.menu);
  const menu = Menu.safeParse(filled.menu);
  // A plan whose garments are all printed ahead brings none to press.
  const isEmpty = filled.entries.length === 0 && accepted.bring.ready.some(({ bring }) => bring > 0);
  const stock = isEmpty
    ? { success: true as const, data: { entries: [] } }
    : StockChange.safeParse({ entries: filled.entries });
  if (!menu.success || !stock.success || filled.faults.length > 0) {
    const menuFaults = menu.success ? [] : faultsOf(menu.error);
    const stockFaults = stock.success ? [] : [{ pointer: "#/bring", detail: "bring at least one piece" }];
    const told = menuFaults.map((fault) => ({ ...fault, pointer: inRequest(fault.pointer, filled) }));
    return invalid(c, [...told, ...stockFaults, ...filled.faults]);
  }
  const answer = await crewWrite(c, place, (stall, generation, key) =>
    stall.acceptPlan(
      generation,
      key,
      {
        type: "accept-plan",
        menu: menu.data,
        entries: stock.data.entries,
        rack: filled.rack,
        plan: keptPlan(accepted),
      },
      [...filled.check],
    ),
  );
  return answer.ok ? c.json(answer.value, 200) : answer.refusal;
});
