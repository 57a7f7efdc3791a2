/** Contradictions of a menu that its schema cannot see. */

import { type Fault, pointer } from "../basics/faults.ts";
import type { Blank, Menu, Offer } from "./catalogue.ts";

type Named = { readonly id: string };

/** Every entry whose id was already used by an earlier one. */
function repeated(list: string, entries: readonly Named[]): Fault[] {
  const seen = new Set<string>();
  return entries.flatMap(({ id }, index) => {
    if (!seen.has(id)) {
      seen.add(id);
      return [];
    }
    return [{ pointer: `${list}/${index}/id`, detail: `"${id}" is used twice; give each its own id` }];
  });
}

/** Every id that the known ones do not hold. */
function unknown(
  list: string,
  ids: readonly string[] | undefined,
  known: readonly Named[],
  owner: string,
): Fault[] {
  return (ids ?? []).flatMap((id, index) =>
    known.some((entry) => entry.id === id)
      ? []
      : [
          {
            pointer: `${list}/${index}`,
            detail: `${owner} has no "${id}"; add it there or take it out here`,
          },
        ],
  );
}

/** Whether two lists of choices have one in common; no list means all choices. */
function share(one: readonly string[] | undefined, other: readonly string[] | undefined): boolean {
  return one === undefined || other === undefined || one.some((id) => other.includes(id));
}

/** Whether some garment could be sold as either of the two offers. */
function overlap(one: Offer, other: Offer): boolean {
  return (
    one.blank === other.blank &&
    one.design === other.design &&
    share(one.colours, other.colours) &&
    share(one.sizes, other.sizes)
  );
}

function offerFaults(menu: Menu): Fault[] {
  return menu.offers.flatMap((offer, index) => {
    const at = pointer(["offers", index]);
    const faults: Fault[] = [];
    const blank = menu.blanks.find(({ id }) => id === offer.blank);
    if (blank === undefined) {
      faults.push({
        pointer: `${at}/blank`,
        detail: `there is no blank "${offer.blank}"; add it or pick another`,
      });
    } else {
      faults.push(...unknown(`${at}/colours`, offer.colours, blank.colours, `blank "${blank.id}"`));
      faults.push(...unknown(`${at}/sizes`, offer.sizes, blank.sizes, `blank "${blank.id}"`));
      for (const size of Object.keys(offer.surcharges ?? {}))
        if (!blank.sizes.some(({ id }) => id === size))
          faults.push({
            pointer: `${at}/surcharges/${size}`,
            detail: `blank "${blank.id}" has no "${size}"; add it there or take its surcharge out here`,
          });
    }
    if (!menu.designs.some(({ id }) => id === offer.design)) {
      faults.push({
        pointer: `${at}/design`,
        detail: `there is no design "${offer.design}"; add it or pick another`,
      });
    }
    const alike = menu.offers.slice(0, index).find((earlier) => overlap(earlier, offer));
    if (alike !== undefined) {
      faults.push({
        pointer: at,
        detail: `sells the same design on the same blank as offer "${alike.id}"; keep one, or give them different colours or sizes`,
      });
    }
    const name = offer.name.toLowerCase();
    if (menu.offers.findIndex((other) => other.name.toLowerCase() === name) < index) {
      faults.push({
        pointer: `${at}/name`,
        detail: `"${offer.name}" names two offers; customers could not tell them apart`,
      });
    }
    return faults;
  });
}

function blankFaults(menu: Menu, blank: Blank, index: number): Fault[] {
  const at = pointer(["blanks", index]);
  const faults = [...repeated(`${at}/colours`, blank.colours), ...repeated(`${at}/sizes`, blank.sizes)];
  if (!menu.presses.some(({ platen }) => platen === blank.platen)) {
    faults.push({
      pointer: `${at}/platen`,
      detail: `no press has a ${blank.platen} platen; add such a press or take this blank off the menu`,
    });
  }
  return faults;
}

/** Second transfers, of an offer or a wish, whose design is not there. */
function secondFaults({ offers, wishes = [], designs }: Menu): Fault[] {
  const fault = (list: string, id: string | undefined, index: number): Fault[] =>
    id === undefined || designs.some((design) => design.id === id)
      ? []
      : [
          {
            pointer: pointer([list, index, "second", "design"]),
            detail: `there is no design "${id}"; add it or pick another`,
          },
        ];
  return [
    ...offers.flatMap(({ second }, index) => fault("offers", second?.design, index)),
    ...wishes.flatMap(({ second }, index) => fault("wishes", second?.design, index)),
  ];
}

/** Bundles of offers that are not there, and of a single garment. */
function bundleFaults({ bundles = [], offers }: Menu): Fault[] {
  return bundles.flatMap(({ takes }, index) => [
    ...takes.flatMap(({ offers: any }, place) =>
      unknown(pointer(["bundles", index, "takes", place, "offers"]), any, offers, "the menu"),
    ),
    ...(takes.reduce((sum, { quantity }) => sum + quantity, 0) < 2
      ? [
          {
            pointer: pointer(["bundles", index, "takes"]),
            detail: "a bundle is of two garments at least; lower the offer's price for one",
          },
        ]
      : []),
  ]);
}

/** A rule that says the price of a second in two ways. */
const rulesFaults = ({ rules }: Menu): Fault[] =>
  rules.secondsAmountOff === undefined || rules.secondsPartsPerMillionOff === undefined
    ? []
    : [
        {
          pointer: "#/rules/secondsAmountOff",
          detail: "a second costs less by a share or by an amount; leave one of the two empty",
        },
      ];

/** Every way in which a well-formed menu contradicts itself; empty when it can be used. */
export function menuFaults(menu: Menu): readonly Fault[] {
  return [
    ...repeated("#/blanks", menu.blanks),
    ...menu.blanks.flatMap((blank, index) => blankFaults(menu, blank, index)),
    ...repeated("#/designs", menu.designs),
    ...repeated("#/offers", menu.offers),
    ...offerFaults(menu),
    ...repeated("#/wishes", menu.wishes ?? []),
    ...secondFaults(menu),
    ...repeated("#/bundles", menu.bundles ?? []),
    ...bundleFaults(menu),
    ...repeated("#/presses", menu.presses),
    ...rulesFaults(menu),
  ];
}
