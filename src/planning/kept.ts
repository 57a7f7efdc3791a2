/** The part of an accepted plan that a stall keeps: costs for the day's account, and the forecast. */
import type { DayCosts } from "../model/accounts/day-costs.ts";
import { BlankId, DesignId, SizeId } from "../model/basics/ids.ts";
import { plainText } from "../model/basics/words.ts";
import type { AcceptedPlan } from "../model/planning/accepted-plan.ts";
import type { KeptPlan } from "../model/planning/kept-plan.ts";
import { OWN_COSTS } from "./bring/costs.ts";
import { gatherFaults } from "./request/faults.ts";
import { reader } from "./request/given.ts";

type Request = AcceptedPlan["request"];

const PART_PER_MILLION = 1_000_000;
const FEE_NAME = plainText(40);
const MOST_FEES = 30;
const FROM_PLAN: ReadonlySet<string> = new Set(Object.values(OWN_COSTS));
const MOST_BLANKS = 240;

/** Null if the plan's answer was not sent along. */
export function keptPlan({ request, bring, plan }: AcceptedPlan): KeptPlan | null {
  if (plan === undefined) return null;
  const way = plan.manners.find(({ manner }) => manner === plan.best);
  const garments = way?.garmentsSold ?? 0;
  const all = plan.demand.hours;
  const days = all.at(-1)?.day ?? 1;
  const rangeOf = ({ p5, p50, p95 }: (typeof all)[number]["soldBy"]) => ({ likely: p50, low: p5, high: p95 });
  const hours = all.map(({ day, from, minutes, soldBy, soldThatDay }) => ({
    ...(day === undefined ? {} : { day }),
    from,
    minutes,
    soldBy: rangeOf(soldThatDay ?? soldBy),
  }));
  const { expectedProfit, profit } = plan.money;
  const left = (lines: readonly { readonly comesHome: number }[]): number =>
    lines.reduce((sum, { comesHome }) => sum + comesHome, 0);
  const last = all.at(-1);
  const whole = last === undefined ? { low: garments, high: garments } : rangeOf(last.soldBy);
  const spoilage = plan.best === "print-ahead" ? 0 : readerOf(request).share(request.spoilage, []);
  return {
    name: plan.name,
    day: plan.day,
    ...(days > 1 ? { days } : {}),
    costs: costsOf(request, bring, garments, plan),
    profit: { likely: expectedProfit, low: profit.p5, high: profit.p95 },
    garments: { ...whole, likely: garments },
    waitMinutes: way?.waitMinutes ?? { median: 0, p90: 0 },
    spoiled: spoilage * garments,
    left: { blanks: left(bring.skus), transfers: left(bring.transfers) },
    ...readyOf(request, bring.ready),
    owned: Object.fromEntries([
      ...bring.skus.flatMap(({ sku, owned }) => (owned > 0 ? [[sku, owned] as const] : [])),
      ...bring.transfers.flatMap(({ design, owned }) => (owned > 0 ? [[design, owned] as const] : [])),
    ]),
    hours,
    sold: plan.sold,
  };
}

/** A leftover is worth its part of the mean cost: the plan keeps no price for each garment. */
function readyOf(request: Request, lines: AcceptedPlan["bring"]["ready"]): Pick<KeptPlan, "ready"> {
  if (lines.every(({ bring }) => bring === 0)) return {};
  const bought = lines.reduce((sum, { bring, owned }) => sum + bring - owned, 0);
  const worth = readerOf(request).share(request.ahead.leftoverWorth, []) * readyCost(lines);
  const left = lines.reduce((sum, { comesHome }) => sum + comesHome, 0);
  return { ready: { left, worth: Math.round(worth / Math.max(1, bought)) } };
}

const readyCost = (lines: AcceptedPlan["bring"]["ready"]): number =>
  lines.reduce((sum, { cost }) => sum + cost, 0);

const readerOf = ({ currency }: Request) => reader(currency, gatherFaults());

/** Amounts in minor units. The planner has already refused unreadable ones. */
function costsOf(
  request: Request,
  bring: AcceptedPlan["bring"],
  garments: number,
  { best, money: planned }: NonNullable<AcceptedPlan["plan"]>,
): DayCosts {
  const isAhead = best === "print-ahead";
  const { costs, blanks, designs } = request;
  const { money, share } = readerOf(request);
  const percent = (given: Parameters<typeof share>[0]): number => Math.round(100 * share(given, []));
  const fee = (name: string, amount: number): DayCosts["fees"] => {
    const read = FEE_NAME.safeParse(name.slice(0, 40));
    return amount === 0 ? [] : [{ name: read.success ? read.data : "Fee", amount }];
  };
  const isBrought = new Set([
    ...bring.transfers.flatMap(({ design, bring: pieces }) => (pieces > 0 ? [design] : [])),
    ...bring.ready.flatMap(({ offer }) => request.offers.find(({ id }) => id === offer)?.design ?? []),
  ]);
  const setUp = designs.reduce(
    (sum, { id, setUpCost }) => sum + (isBrought.has(DesignId.parse(id)) ? money(setUpCost, []) : 0),
    0,
  );
  return {
    blanks: blanks
      .flatMap(({ id, cost, leftoverWorth, sizes }): DayCosts["blanks"] => {
        const blank = BlankId.parse(id);
        const worthPercent = percent(leftoverWorth);
        return [
          { blank, cost: money(cost, []), worthPercent },
          ...sizes.flatMap((size) =>
            size.cost === undefined
              ? []
              : [{ blank, size: SizeId.parse(size.id), cost: money(size.cost, []), worthPercent }],
          ),
        ];
      })
      .slice(0, MOST_BLANKS),
    transfers: designs.map(({ id, cost, leftoverWorth }) => ({
      design: DesignId.parse(id),
      cost: money(cost, []),
      worthPercent: percent(leftoverWorth),
    })),
    fees: [
      ...costs.fixed
        .filter(({ onlyWhenPressing }) => !(isAhead && onlyWhenPressing))
        .flatMap(({ name, cost }) => fee(name, money(cost, []))),
      ...fee("Design set-up", setUp),
      ...fee("Garments printed ahead", readyCost(bring.ready)),
      ...(planned.costs ?? []).flatMap(({ name, amount }) => (FROM_PLAN.has(name) ? fee(name, amount) : [])),
      ...fee("Bags and tickets", Math.round(money(costs.perGarment, []) * garments)),
    ].slice(0, MOST_FEES),
    ...(costs.crew === undefined
      ? {}
      : {
          wages: {
            people: (isAhead ? request.ahead.peopleAtFair : undefined) ?? costs.crew.people,
            hours: costs.crew.hours,
            hourly: money(costs.crew.hourlyWage, []),
          },
        }),
    ...(costs.cardFee === undefined
      ? {}
      : {
          cardFee: {
            partsPerMillion: Math.round(share(costs.cardFee.share, []) * PART_PER_MILLION),
            each: money(costs.cardFee.each, []),
          },
        }),
  };
}
