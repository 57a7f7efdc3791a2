/** What a plan says its day costs, as a stall's account keeps a day's costs. */
import type { DayCosts } from "../../../../model/accounts/closeout.ts";
import type { BlankId, DesignId, SizeId } from "../../../../model/basics/ids.ts";
import { gatherFaults } from "../../../../planning/request/faults.ts";
import { reader } from "../../../../planning/request/given.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { wordAt } from "../groups/names.ts";

const PART_PER_MILLION = 1_000_000;
const BLANK_WORTH = 0.8;

/** Sums in minor units; what the plan does not say is left out. */
export function dayCostsOf(plan: Json): DayCosts {
  const read = reader(wordAt(plan, "#/currency", "USD"), gatherFaults());
  const money = (value: Json | undefined): number =>
    typeof value === "number" || typeof value === "string" ? read.money(value, []) : 0;
  const share = (value: Json | undefined, otherwise: number): number =>
    typeof value === "number" || typeof value === "string" ? read.share(value, []) : otherwise;
  const percent = (value: Json | undefined, otherwise: number): number =>
    Math.round(100 * share(value, otherwise));
  const crew = valueAt(plan, "#/costs/crew");
  const fee = valueAt(plan, "#/costs/cardFee");
  return {
    blanks: rowsAt(plan, "#/blanks").flatMap((row) => {
      const blank = wordAt(row, "#/id") as BlankId; // an accepted plan's names were read by the stall
      const worthPercent = percent(valueAt(row, "#/leftoverWorth"), BLANK_WORTH);
      return [
        { blank, cost: money(valueAt(row, "#/cost")), worthPercent },
        ...rowsAt(row, "#/sizes").flatMap((size) => {
          const own = valueAt(size, "#/cost");
          const id = wordAt(size, "#/id") as SizeId; // likewise
          return own === undefined ? [] : [{ blank, size: id, cost: money(own), worthPercent }];
        }),
      ];
    }),
    transfers: rowsAt(plan, "#/designs").map((row) => ({
      design: wordAt(row, "#/id") as DesignId, // likewise
      cost: money(valueAt(row, "#/cost")),
      worthPercent: percent(valueAt(row, "#/leftoverWorth"), 0),
    })),
    fees: rowsAt(plan, "#/costs/fixed").map((row) => ({
      name: wordAt(row, "#/name", "Fee").slice(0, 40),
      amount: money(valueAt(row, "#/cost")),
    })),
    ...(crew === undefined
      ? {}
      : {
          wages: {
            people: Number(valueAt(crew, "#/people") ?? 0),
            hours: Number(valueAt(crew, "#/hours") ?? 0),
            hourly: money(valueAt(crew, "#/hourlyWage")),
          },
        }),
    ...(fee === undefined
      ? {}
      : {
          cardFee: {
            partsPerMillion: Math.round(share(valueAt(fee, "#/share"), 0) * PART_PER_MILLION),
            each: money(valueAt(fee, "#/each")),
          },
        }),
  };
}
