/** The requests for each offer; and the offers with stated demand, which are planned separately and exactly. */
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { element } from "../../kit/dom.ts";
import { about, bar, folded, odds, tableOf, whole } from "../figures.ts";

export function drawOffers(
  { demand, stated, currency }: Plan,
  names: ReadonlyMap<string, string>,
): HTMLElement[] {
  const asked = (): HTMLElement =>
    tableOf(
      "What each offer is asked for, in the day",
      ["Offer", "1 day in 20 below", "middle", "1 day in 20 above"],
      demand.offers.map(({ offer, garments: { p5, p50, p95 } }) => [
        names.get(offer) ?? offer,
        whole(p5),
        whole(p50),
        whole(p95),
      ]),
    );
  return [
    ...(demand.offers.length === 0 ? [] : [folded("What each offer is asked for", asked())]),
    ...(stated.length === 0 ? [] : drawStated(stated, currency, names)),
  ];
}

function drawStated(
  stated: Plan["stated"],
  currency: string,
  names: ReadonlyMap<string, string>,
): HTMLElement[] {
  const headings = [
    "Offer",
    "Bring",
    "Odds that it is enough",
    "Sold, on average",
    "Turned away, on average",
    "Left over, on average",
    "To pay",
    "Leaves, before fixed costs",
  ];
  return [
    tableOf(
      "Offers whose demand you stated",
      headings,
      stated.map((one) => [
        names.get(one.offer) ?? one.offer,
        whole(one.quantity),
        element("span", { class: "stock" }, odds(one.oddsEnough), bar(one.oddsEnough)),
        one.expectedSold.toFixed(1),
        one.expectedUnmet.toFixed(1),
        one.expectedLeftOver.toFixed(1),
        about(one.outlay, currency),
        about(one.expectedProfit, currency),
      ]),
    ),
    element(
      "p",
      { class: "help" },
      ...stated.map(
        ({ offer, criticalRatio, exactQuantity }) =>
          `${names.get(offer) ?? offer}: one more pays as long as it sells on more than ${odds(1 - criticalRatio)} of days; ${exactQuantity.toFixed(1)} before rounding. `,
      ),
    ),
  ];
}
