import { fairsOf } from "../../lessons/fairs.ts";
import { eachOnce } from "../../lessons/learnt.ts";
import type { Lessons } from "../../model/accounts/lessons.ts";
import type { OrFaults } from "../../model/basics/faults.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { PlanRequest } from "../../model/planning/plan-request.ts";
import { type Faults, gatherFaults } from "./faults.ts";
import { type Reader, reader } from "./given.ts";
import { prepareBuying, prepareCrowd, prepareWeather } from "./prepare-crowd.ts";
import { checkLimits } from "./prepare-limits.ts";
import { prepareBlanks, prepareOffers } from "./prepare-menu.ts";
import { prepareStock } from "./prepare-stock.ts";
import type { FairDay, Prepared, PreparedCosts } from "./prepared.ts";

/** The weight, in garments, of the crew's own figures for spoilage and handling beside counted ones. */
const PRIOR_GARMENTS = 100;

export type Preparation = OrFaults<Prepared>;

/** Converts a request to one set of units, or returns every fault in it. */
export function prepare(request: PlanRequest): Preparation {
  const faults = gatherFaults();
  const read = reader(request.currency, faults);
  const lessons = eachOnce(request.lessons);
  const fairs = fairsOf(lessons).map(({ days }) => days);
  const { crowd, hours } = prepareCrowd(request, read, faults);
  const weather = prepareWeather(request, read, faults);
  const buying = prepareBuying(request, fairs, read, faults);
  const costs = prepareCosts(request, buying?.meanGarments ?? 1, read, faults);
  const blanks = prepareBlanks(request, fairs, read, faults);
  const offers = prepareOffers(request, fairs, costs, read, faults);
  const { products, stocks, skuCount } = prepareStock(request, blanks, offers, read, faults);
  const anotherColour = read.share(request.substitution.anotherColour, ["substitution", "anotherColour"]);
  const anotherDesign = read.share(request.substitution.anotherDesign, ["substitution", "anotherDesign"]);
  const anotherSize = read.share(request.substitution.anotherSize, ["substitution", "anotherSize"]);
  if (anotherColour + anotherDesign + anotherSize > 1) {
    faults.add(
      ["substitution"],
      "more than 100 % would take something else",
      "lower one of them; the rest walk away",
    );
  }
  const presses = preparePresses(request, lessons, faults);
  const { van, budget } = request.limits;
  const prepared: Prepared = {
    request,
    currency: request.currency,
    opensMinute: read.clock(request.opens),
    closesMinute: read.clock(request.closes),
    days: daysOf(request),
    restocks: request.restockOvernight && request.days.length > 1,
    crowd,
    hours,
    weather,
    buying,
    blanks,
    offers,
    products,
    stocks,
    skuCount,
    setUpCosts: request.designs.map((design, index) =>
      read.money(design.setUpCost, ["designs", index, "setUpCost"]),
    ),
    anotherColour,
    anotherDesign,
    anotherSize,
    presses,
    patienceMinutes: request.patienceMinutes,
    spoilage: spoilageOf(request, lessons, read) + costs.exchangeShare,
    budget: budget === undefined ? Number.POSITIVE_INFINITY : read.money(budget, ["limits", "budget"]),
    vanLimit: van === undefined ? Number.POSITIVE_INFINITY : "pieces" in van ? van.pieces : van.cartons,
    costs,
    aheadWorth: read.share(request.ahead.leftoverWorth, ["ahead", "leftoverWorth"]),
    aheadPerGarment: read.money(request.ahead.perGarment, ["ahead", "perGarment"]),
  };
  if (request.days.length > 0 && prepared.days.every(({ crowd: times }) => times === 0))
    faults.add(["days"], "no day has a crowd", "give at least one day a crowd above 0");
  checkLimits(prepared, faults);
  const found = faults.found();
  return found.length > 0 ? refused(found) : ok(prepared);
}

const daysOf = ({ days }: PlanRequest): FairDay[] =>
  days.length === 0
    ? [{ name: "day 1", crowd: 1 }]
    : days.map(({ name, crowd }, at) => ({ name: name ?? `day ${at + 1}`, crowd }));

function prepareCosts(
  request: PlanRequest,
  garmentsPerOrder: number,
  read: Reader,
  faults: Faults,
): PreparedCosts {
  const { costs } = request;
  const at = (...rest: (string | number)[]) => ["costs", ...rest];
  const rate = costs.tax === undefined ? 0 : read.share(costs.tax.rate, at("tax", "rate"));
  const charged = costs.tax?.included === false ? 1 + rate : 1;
  const beforeTax = costs.tax?.included === true ? 1 / (1 + rate) : 1;
  const fee = costs.cardFee;
  const byCard = fee === undefined ? 0 : read.share(fee.paidByCard, at("cardFee", "paidByCard"));
  const feeShare = fee === undefined ? 0 : read.share(fee.share, at("cardFee", "share"));
  const each = fee === undefined ? 0 : read.money(fee.each, at("cardFee", "each"));
  if (feeShare > 0.5)
    faults.add(
      at("cardFee", "share"),
      "takes more than half of every payment",
      'write 2.9 per cent as 0.029 or "2.9 %"',
    );
  return {
    fixed: costs.fixed.map((row, index) => ({
      ...row,
      cost: read.money(row.cost, at("fixed", index, "cost")),
    })),
    people: costs.crew?.people ?? 0,
    paidHours: costs.crew?.hours ?? 0,
    hourlyWage: costs.crew === undefined ? 0 : read.money(costs.crew.hourlyWage, at("crew", "hourlyWage")),
    perGarment: read.money(costs.perGarment, at("perGarment")),
    target: read.money(costs.target, at("target")),
    elasticity: costs.elasticity,
    keptShare: beforeTax - byCard * feeShare * charged,
    beforeTax,
    pitchShare: {
      share:
        costs.pitchShare === undefined ? 0 : read.share(costs.pitchShare.share, at("pitchShare", "share")),
      atLeast:
        costs.pitchShare === undefined
          ? 0
          : read.money(costs.pitchShare.atLeast, at("pitchShare", "atLeast")),
    },
    wearPerPressing: read.money(costs.wearPerPressing, at("wearPerPressing")),
    wearPerHour: read.money(costs.wearPerHour, at("wearPerHour")),
    refundShare: read.share(costs.refundShare, at("refundShare")),
    exchangeShare: read.share(costs.exchangeShare, at("exchangeShare")),
    ownTime:
      costs.ownTime === undefined
        ? null
        : Math.round(costs.ownTime.hours * read.money(costs.ownTime.hourly, at("ownTime", "hourly"))),
    feeEach: (byCard * each) / garmentsPerOrder,
  };
}

function preparePresses(
  request: PlanRequest,
  lessons: readonly Lessons[],
  faults: Faults,
): Prepared["presses"] {
  if (request.presses.length === 0) return [];
  request.blanks.forEach((blank, index) => {
    if (!request.presses.some(({ platen }) => platen === blank.platen)) {
      faults.add(
        ["blanks", index, "platen"],
        `no press has a ${blank.platen} platen`,
        "add such a press, or take the blank out",
      );
    }
  });
  return request.presses.map(({ platen, count, garmentsPerHour }) => {
    let garments = PRIOR_GARMENTS;
    let seconds = (PRIOR_GARMENTS * 3600) / garmentsPerHour;
    for (const row of lessons
      .flatMap((lesson) => lesson.handling)
      .filter((timed) => timed.platen === platen)) {
      garments += row.garments;
      seconds += row.garments * row.seconds;
    }
    return { platen, count, seconds: seconds / garments };
  });
}

function spoilageOf(request: PlanRequest, lessons: readonly Lessons[], read: Reader): number {
  const counted = lessons.flatMap((lesson) => lesson.spoilage ?? []);
  const spoiled = counted.reduce(
    (sum, row) => sum + row.spoiled,
    PRIOR_GARMENTS * read.share(request.spoilage, ["spoilage"]),
  );
  return spoiled / counted.reduce((sum, row) => sum + row.pressed, PRIOR_GARMENTS);
}
