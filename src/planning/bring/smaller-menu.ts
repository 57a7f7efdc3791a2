import type { Work } from "../../maths/work.ts";
import type { PlanSmallerMenu } from "../../model/planning/plan-answer.ts";
import { type Scenarios, upToAsks } from "../demand/asks.ts";
import type { Alone } from "../demand/stated.ts";
import type { Prepared } from "../request/prepared.ts";
import { type Brought, LIGHT_EFFORT, whatToBring } from "./bring.ts";
import { setUpCost } from "./costs.ts";
import type { Strategy } from "./search/shop.ts";

/** A choice is advised against if leaving it off costs less than this share of the profit before fixed costs. */
const AS_MUCH = 0.0025;
/** Choices tried together with those already left off. */
const MOST_TOGETHER = 12;
/** Asks of the days that the menus are compared on. */
const MENU_ASKS = 10_000;

type Choice = {
  readonly drop: PlanSmallerMenu["dropOne"][number]["drop"];
  readonly id: string;
  readonly products: readonly number[];
};

/**
 * The profit of the menu without each offer, design, colour and size, with the stock planned again: customers who
 * wanted it react as when a choice is sold out. Then all that could be left out together at no loss.
 */
export function* smallerMenu(
  prepared: Prepared,
  drawn: Scenarios,
  alone: readonly Alone[],
  manner: Strategy,
  start: Brought,
): Work<PlanSmallerMenu> {
  const scenarios = upToAsks(drawn, MENU_ASKS);
  const earned = function* (dropped: ReadonlySet<number>): Work<number> {
    const brought = yield* whatToBring(prepared, scenarios, {
      manner,
      alone,
      from: start.best.stock,
      care: LIGHT_EFFORT,
      dropped,
    });
    return brought.best.profit - setUpCost(prepared, brought);
  };
  const whole = yield* earned(new Set());
  const slack = Math.abs(whole) * AS_MUCH;
  const changes: { choice: Choice; change: number }[] = [];
  for (const choice of choicesOf(prepared, alone)) {
    changes.push({ choice, change: (yield* earned(new Set(choice.products))) - whole });
  }
  changes.sort((a, b) => b.change - a.change);

  const dropped = new Set<number>();
  const advice: string[] = [];
  let change = 0;
  let tries = 0;
  for (const { choice, change: single } of changes) {
    if (single < -slack || tries === MOST_TOGETHER) break;
    if (choice.products.every((product) => dropped.has(product))) continue;
    tries++;
    const together = new Set([...dropped, ...choice.products]);
    const now = (yield* earned(together)) - whole;
    if (now < -slack) continue;
    for (const product of choice.products) dropped.add(product);
    advice.push(`${choice.drop} ${choice.id}`);
    change = now;
  }
  return {
    dropOne: changes.map(({ choice: { drop, id }, change: single }) => ({
      drop,
      id,
      change: Math.round(single),
      advised: advice.includes(`${drop} ${id}`),
    })),
    advice,
    change: Math.round(change),
  };
}

/** Everything that can be left off and leaves something to sell. */
function choicesOf(prepared: Prepared, alone: readonly Alone[]): Choice[] {
  const apart = new Set(alone.map(({ offer }) => offer));
  const { products, offers, blanks } = prepared;
  const shared = products.flatMap((product, index) => (apart.has(product.offer) ? [] : [index]));
  const pick = (wanted: (product: (typeof products)[number]) => boolean) =>
    shared.filter((index) => {
      const product = products[index];
      return product !== undefined && wanted(product);
    });
  const choices: Choice[] = [
    ...offers.map(
      (offer, index): Choice => ({
        drop: "offer",
        id: offer.id,
        products: pick((product) => product.offer === index),
      }),
    ),
    ...prepared.request.designs.map(
      (design, index): Choice => ({
        drop: "design",
        id: design.id,
        products: pick((product) => product.transfer === prepared.skuCount + index),
      }),
    ),
    ...blanks.flatMap((blank, at) => [
      ...blank.colours.names.map(
        (name, colour): Choice => ({
          drop: "colour",
          id: `${blank.id}.${name}`,
          products: pick((product) => offers[product.offer]?.blank === at && product.colour === colour),
        }),
      ),
      ...blank.sizes.names.map(
        (name, size): Choice => ({
          drop: "size",
          id: `${blank.id}.${name}`,
          products: pick((product) => offers[product.offer]?.blank === at && product.size === size),
        }),
      ),
    ]),
  ];
  // A design that only one offer carries is that offer; once is enough.
  const seen = new Set<string>();
  return choices.filter(({ products: own }) => {
    const key = own.join(" ");
    if (own.length === 0 || own.length === shared.length || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
