import { sharesOfNextFair } from "../../maths/dirichlet.ts";
import type { Lessons } from "../../model/accounts/lessons.ts";
import type { PlanRequest } from "../../model/planning/plan-request.ts";
import type { FaultPath, Faults } from "./faults.ts";
import type { Reader } from "./given.ts";
import { netOf } from "./net.ts";
import { sharesOf } from "./prepare-crowd.ts";
import { checkStated } from "./prepare-stated.ts";
import type { Mix, PreparedBlank, PreparedCosts, PreparedOffer } from "./prepared.ts";

/** Faults for every id used twice. */
export function unique(ids: readonly string[], path: FaultPath, faults: Faults): void {
  ids.forEach((id, index) => {
    if (ids.indexOf(id) < index)
      faults.add([...path, index, "id"], `"${id}" is used twice`, "give each its own id");
  });
}

/** The days of each earlier fair. */
type Fairs = readonly (readonly Lessons[])[];

export function prepareBlanks(
  request: PlanRequest,
  fairs: Fairs,
  read: Reader,
  faults: Faults,
): PreparedBlank[] {
  unique(
    request.blanks.map(({ id }) => id),
    ["blanks"],
    faults,
  );
  return request.blanks.map((blank, index) => {
    const path = ["blanks", index];
    const mix = (
      part: "colours" | "sizes",
      counted: (days: readonly Lessons[], id: string) => number,
    ): Mix => {
      const names: string[] = blank[part].map(({ id }) => id);
      unique(names, [...path, part], faults);
      const given = blank[part].map(({ share }, at) => ({ given: share, at: [...path, part, at, "share"] }));
      const shares = sharesOf(given, [...path, part], `the shares of the ${part}`, read, faults);
      return {
        names,
        weights: sharesOfNextFair(
          shares,
          blank.sureness,
          fairs.map((days) => names.map((id) => counted(days, id))),
        ),
      };
    };
    return {
      id: blank.id,
      name: blank.name ?? blank.id,
      platen: blank.platen,
      colours: mix("colours", (days, id) =>
        asks(
          days.flatMap((lesson) => lesson.colours),
          (row) => row.blank === blank.id && row.colour === id,
        ),
      ),
      sizes: mix("sizes", (days, id) =>
        asks(
          days.flatMap((lesson) => lesson.sizes),
          (row) => row.blank === blank.id && row.size === id,
        ),
      ),
      youth: blank.sizes.map((size) => size.youth ?? false),
      perCarton: blank.perCarton,
    };
  });
}

function asks<Row extends { readonly asks: number }>(
  rows: readonly Row[],
  wanted: (row: Row) => boolean,
): number {
  return rows.reduce((sum, row) => sum + (wanted(row) ? row.asks : 0), 0);
}

export function prepareOffers(
  request: PlanRequest,
  fairs: Fairs,
  costs: PreparedCosts,
  read: Reader,
  faults: Faults,
): PreparedOffer[] {
  unique(
    request.offers.map(({ id }) => id),
    ["offers"],
    faults,
  );
  const given = request.offers.map((offer, index) => {
    const path = ["offers", index];
    if (offer.demand !== undefined) {
      checkStated(offer.demand, [...path, "demand"], read, faults);
      if (offer.share !== undefined)
        faults.add(
          [...path, "share"],
          "has both a share of the crowd and a stated demand",
          "leave one of them out",
        );
      return null;
    }
    if (offer.share === undefined) {
      faults.add(
        path,
        "has neither a share of the orders nor a stated demand",
        "give it a share, or state its demand",
      );
      return null;
    }
    return { given: offer.share, at: [...path, "share"], offer: index };
  });
  const sharing = given.filter((row) => row !== null);
  const shares =
    sharing.length === 0
      ? []
      : sharesOf(sharing, ["offers"], "the offers' shares of the orders", read, faults);
  if (sharing.length > 0) {
    for (const part of ["traffic", "buying"] as const) {
      if (request[part] === undefined)
        faults.add(
          [part],
          "is needed for offers that share the crowd",
          `add ${part}, or state the demand of every offer`,
        );
    }
  }
  const counts = fairs.map((days) =>
    sharing.map(({ offer }) =>
      asks(
        days.flatMap((lesson) => lesson.offers),
        (row) => row.offer === request.offers[offer]?.id,
      ),
    ),
  );
  const weights = sharesOfNextFair(shares, request.buying?.sureness ?? 1, counts);
  const weightOf = new Map(sharing.map(({ offer }, at) => [offer, weights[at] ?? 0]));
  return request.offers.map((offer, index) => {
    const path = ["offers", index];
    const blank = request.blanks.findIndex(({ id }) => id === offer.blank);
    const design =
      offer.design === undefined ? -1 : request.designs.findIndex(({ id }) => id === offer.design);
    if (blank < 0)
      faults.add([...path, "blank"], `there is no blank "${offer.blank}"`, "name one of the blanks");
    if (offer.design !== undefined && design < 0)
      faults.add([...path, "design"], `there is no design "${offer.design}"`, "name one of the designs");
    const price = read.money(offer.price, [...path, "price"]);
    return {
      id: offer.id,
      name: offer.name ?? offer.id,
      blank,
      design,
      price,
      net: netOf(price, costs),
      weight: weightOf.get(index) ?? 0,
      stated: offer.demand ?? null,
      onDays: onDays(request, design, faults),
    };
  });
}

/** For each day of the fair, whether a design is asked for; a blank without one always is. */
function onDays({ days, designs }: PlanRequest, design: number, faults: Faults): boolean[] {
  const count = Math.max(1, days.length);
  const only = designs[design]?.onlyOnDays;
  if (only?.some((day) => day > count))
    faults.add(
      ["designs", design, "onlyOnDays"],
      count === 1 ? "the fair has one day" : `the fair has ${count} days`,
      "leave out the days that it does not have",
    );
  return Array.from({ length: count }, (_, day) => only === undefined || only.includes(day + 1));
}
