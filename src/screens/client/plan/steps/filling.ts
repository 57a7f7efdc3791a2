/** Turns an accepted plan into a stall's menu and opening stock, if the stall's crew key is in this browser. */
import { nanoid } from "nanoid";
import type { PlanTaken } from "../../../../model/planning/accepted-plan.ts";
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { apiAt, detailOf } from "../../kit/api.ts";
import { element } from "../../kit/dom.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { local } from "../../kit/texts-kept.ts";
import { keepAccepted } from "../day/accepted.ts";
import type { Day } from "../day/first.ts";
import { sentences } from "../figures.ts";
import { wordAt } from "../groups/names.ts";

const KEPT = "key crew ";
const CENTIMETRES = 2.54;

type Place = { readonly stall: string; readonly key: string };

/** The stalls whose crew key this browser keeps, as "fair/stall"; the one the page was asked for first. */
function places(): readonly Place[] {
  const asked = new URLSearchParams(location.search).get("stall");
  return local
    .entries()
    .flatMap(([name, key]) => (name.startsWith(KEPT) ? [{ stall: name.slice(KEPT.length), key }] : []))
    .sort((a, b) => Number(b.stall === asked) - Number(a.stall === asked) || a.stall.localeCompare(b.stall));
}

/** The button with its stall, and what became of it. */
export function fillStall(plan: Plan, day: Day): HTMLElement {
  const heading = element("h3", {}, "Use this plan at your stall");
  const all = places();
  if (all.length === 0)
    return element(
      "div",
      { class: "no-print" },
      heading,
      element(
        "p",
        {},
        "Open your stall once in this browser with the link that you were given: then a button here sets its menu and opening stock from this plan, and keeps the plan with it.",
      ),
    );
  const which = element(
    "select",
    { id: "fill-stall" },
    ...all.map(({ stall }) => element("option", {}, stall)),
  );
  const told = element("div", { role: "status" });
  const button = element("button", { type: "button" }, "Use this plan at the stall");
  // One key for one intent: sent again after a lost answer, it cannot happen twice.
  let once = nanoid();
  which.addEventListener("change", () => {
    once = nanoid();
  });
  button.addEventListener("click", async () => {
    const place = all[which.selectedIndex];
    if (place === undefined) return;
    const [fair = "", stall = ""] = place.stall.split("/");
    button.disabled = true;
    told.replaceChildren("Sending…");
    const api = apiAt(`/v1/fairs/${fair}/stalls/${stall}`, () => place.key);
    const reply = await api("/plan", { method: "POST", body: accepted(plan, day), once });
    button.disabled = false;
    if (reply.status !== 0 && reply.status < 500) once = nanoid();
    if (reply.status !== 200) {
      told.replaceChildren(
        element("p", { class: "fault" }, detailOf(reply)),
        sentences(faultsIn(reply.body)),
      );
      return;
    }
    const { stock, check } = reply.body as PlanTaken; // as the route documents
    keepAccepted(place.stall, day);
    const pieces = stock.skus.reduce((sum, { onHand }) => sum + onHand, 0);
    told.replaceChildren(
      element(
        "p",
        { class: "verdict" },
        `Done: ${stall} opens with ${pieces} blanks and the menu of this plan. The plan is kept with the stall: its close-out begins from these costs.`,
      ),
      ...(check.length === 0
        ? []
        : [element("p", {}, "Look at these first:"), sentences(check.map(({ detail }) => detail))]),
      element("a", { href: `/crew/${fair}/${stall}/setup` }, "To the stall's own page"),
    );
  });
  return element(
    "div",
    { class: "no-print" },
    heading,
    element(
      "p",
      {},
      "Sets the stall’s blanks, designs, offers and prices, counts in what is brought, and keeps the plan to compare the day with. It can be done until the first order.",
    ),
    element("label", { for: "fill-stall" }, "Stall"),
    element("div", { class: "row" }, which, button),
    told,
  );
}

const faultsIn = (body: unknown): string[] =>
  rowsAt(body as Json, "#/errors").map(
    (fault) => `${wordAt(fault, "#/pointer")}: ${wordAt(fault, "#/detail")}`,
  ); // a problem's JSON

/** The most kinds of garment whose expected sales are sent, best sellers first: a request has a limit. */
const MOST_SOLD = 400;

/** What the route takes: of the request and the answer what is kept, and the size of the art. */
function accepted({ bring, name, day: date, best, manners, money, demand, sold }: Plan, day: Day): Json {
  const { plan, sheets } = day;
  const kept = ["currency", "blanks", "designs", "offers", "presses", "costs", "ahead", "spoilage"].flatMap(
    (field) => {
      const value = valueAt(plan, `#/${field}`);
      return value === undefined ? [] : [[field, value] as const];
    },
  );
  const planned = new Set(bring.transfers.map(({ design }) => design));
  const scale = wordAt(sheets, "#/unit", "in") === "cm" ? CENTIMETRES : 1;
  const art = rowsAt(sheets, "#/designs").flatMap((row): Json[] => {
    const [width, height] = [valueAt(row, "#/width"), valueAt(row, "#/height")];
    const design = wordAt(row, "#/id");
    if (typeof width !== "number" || typeof height !== "number" || !planned.has(design)) return [];
    return [{ design, widthInches: width / scale, heightInches: height / scale }];
  });
  const line = ({
    bring: pieces,
    owned,
    comesHome,
  }: Pick<Plan["bring"]["skus"][number], "bring" | "owned" | "comesHome">) => ({
    bring: pieces,
    owned,
    comesHome,
  });
  return {
    request: Object.fromEntries(kept),
    bring: {
      skus: bring.skus.map((one) => ({ sku: one.sku, ...line(one) })),
      transfers: bring.transfers.map((one) => ({ design: one.design, ...line(one) })),
      ready: bring.ready.map(({ offer, colour, size, cost, ...one }) => ({
        ...{ offer, colour, size, cost },
        ...line(one),
      })),
    },
    art,
    plan: {
      name,
      day: date,
      best,
      manners: manners.map(({ manner, garmentsSold, waitMinutes }) => ({
        manner,
        garmentsSold,
        waitMinutes,
      })),
      money: { expectedProfit: money.expectedProfit, profit: money.profit },
      demand: {
        hours: demand.hours.map(({ day: which, from, minutes, soldBy, soldThatDay }) => ({
          ...{ from, minutes, soldBy },
          ...(which === undefined || soldThatDay === undefined ? {} : { day: which, soldThatDay }),
        })),
      },
      sold: [...sold].sort((one, other) => other.garments - one.garments).slice(0, MOST_SOLD),
    },
  };
}
