/** What a closed fair left: garments on its rack, and the designs of which nothing is brought again. */
import type { Closeout } from "../../../../model/accounts/closeout.ts";
import { type Json, rowsAt, valueAt, withValue } from "../../kit/json-pointer.ts";
import { wordAt } from "../groups/names.ts";
import type { Day } from "./first.ts";

/** Whether the plan sells a blank in a colour and size; with `offer`, as that offer. */
export function isSold(plan: Json, sku: string, offer: string | null = null): boolean {
  const [id = "", colour = "", size = ""] = sku.split(".");
  const blank = rowsAt(plan, "#/blanks").find((row) => wordAt(row, "#/id") === id) ?? null;
  const comesIn = (list: "colours" | "sizes", wanted: string, row: Json): boolean =>
    rowsAt(blank, `#/${list}`).some((one) => wordAt(one, "#/id") === wanted) &&
    (valueAt(row, `#/${list}`) === undefined || rowsAt(row, `#/${list}`).includes(wanted));
  return rowsAt(plan, "#/offers").some(
    (row) =>
      wordAt(row, "#/blank") === id &&
      (offer === null || wordAt(row, "#/id") === offer) &&
      comesIn("colours", colour, row) &&
      comesIn("sizes", size, row),
  );
}

/** Garments for sale on the rack that the plan can sell, by offer, colour and size. */
export function garmentsLeft({ rack = [] }: Closeout, plan: Json): readonly Json[] {
  const kinds = new Map<string, { offer: string; colour: string; size: string; owned: number }>();
  for (const { offer, blank, colour, size, second, keptFor, wishes = [] } of rack) {
    if (second || keptFor !== null || wishes.length > 0) continue;
    if (!isSold(plan, `${blank}.${colour}.${size}`, offer)) continue;
    const key = `${offer}.${colour}.${size}`;
    kinds.set(key, { offer, colour, size, owned: (kinds.get(key)?.owned ?? 0) + 1 });
  }
  return [...kinds.values()];
}

/** The designs of which leftovers stay at home, by id; absent in a day that no closed fair came before. */
export const STAY_HOME = "#/stayHome";

/** What a closed fair left of a design: transfers, and garments that are printed. */
export type Leftover = {
  readonly design: string;
  readonly transfers: number;
  readonly garments: number;
  readonly staysHome: boolean;
};

/** The designs of which the fair before left something; empty if the day does not follow a closed fair. */
export function leftoversOf({ plan, organiser }: Day): readonly Leftover[] {
  if (valueAt(organiser, STAY_HOME) === undefined) return [];
  const stays = rowsAt(organiser, STAY_HOME);
  return rowsAt(plan, "#/designs").flatMap((row): Leftover[] => {
    const design = wordAt(row, "#/id");
    const transfers = Number(wordAt(row, "#/owned", "0"));
    const garments = rowsAt(plan, "#/ready")
      .filter((line) => designOf(plan, line) === design)
      .reduce((sum: number, line) => sum + Number(wordAt(line, "#/owned", "0")), 0);
    return transfers + garments > 0
      ? [{ design, transfers, garments, staysHome: stays.includes(design) }]
      : [];
  });
}

/** The design of a line of printed garments. */
const designOf = (plan: Json, line: Json): string =>
  wordAt(
    rowsAt(plan, "#/offers").find((row) => wordAt(row, "#/id") === wordAt(line, "#/offer")) ?? null,
    "#/design",
  );

/** The place and the value to change if the leftovers of a design are to stay at home, or to come along. */
export const stayingHome = ({ organiser }: Day, design: string, stays: boolean): readonly [string, Json] => [
  STAY_HOME,
  [...rowsAt(organiser, STAY_HOME).filter((one) => one !== design), ...(stays ? [design] : [])],
];

/** The plan request without the transfers and garments that stay at home. */
export function withoutStayingHome({ plan, organiser }: Day): Json {
  const stays = rowsAt(organiser, STAY_HOME);
  if (stays.length === 0) return plan;
  const designs = rowsAt(plan, "#/designs").map((row) =>
    stays.includes(wordAt(row, "#/id")) ? withValue(row, "#/owned", undefined) : row,
  );
  const ready = rowsAt(plan, "#/ready").filter((line) => !stays.includes(designOf(plan, line)));
  return withValue(withValue(plan, "#/designs", designs), "#/ready", ready);
}
