/** From an accepted plan to a stall's menu and opening stock. */

import type { z } from "zod";
import { type Fault, pointer } from "../model/basics/faults.ts";
import type { Design, Menu, Press } from "../model/menu/catalogue.ts";
import { USUAL_SETTINGS } from "../model/menu/usual-settings.ts";
import type { AcceptedPlan } from "../model/planning/accepted-plan.ts";
import { type ReadyMade, readyMade } from "./ready-made.ts";
import { gatherFaults } from "./request/faults.ts";
import { reader } from "./request/given.ts";

type Sent = z.input<typeof Menu>;
type Planned = AcceptedPlan["request"];

export type Filled = {
  /** As PUT …/menu takes it. */
  readonly menu: Sent;
  /** As POST …/stock takes it. */
  readonly entries: readonly (
    | { readonly sku: string; readonly counted: number }
    | { readonly design: string; readonly counted: number }
  )[];
  /** Values filled in because none were given, and parts of the plan that a menu cannot hold. */
  readonly check: readonly Fault[];
  /** Garments printed ahead or left from an earlier fair, for the rack. */
  readonly rack: ReadyMade["rack"];
  /** Lines that do not fit the plan's own request. */
  readonly faults: readonly Fault[];
  /** Per line of the menu's offers: its place in the request. */
  readonly offersFrom: readonly number[];
};

/** Inches; from memory of what a cap front and a full front take. */
const USUAL_ART = { flat: [10, 10], cap: [4, 2.25] } as const;
const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";

/**
 * The menu and the counts of an accepted plan. What the stall's menu already says of a blank, colour, size,
 * design, offer or press of the same name is kept: wording, settings, rules; blanks, choices and prices are the
 * plan's. What neither knows is filled in by common practice and listed in `check`.
 */
export function menuFromPlan(accepted: AcceptedPlan, now: Menu | null): Filled {
  const { request, bring, art } = accepted;
  const check: Fault[] = [];
  const note = (path: readonly PropertyKey[], detail: string) =>
    check.push({ pointer: pointer(path), detail });
  const offersFrom = request.offers.flatMap(({ design }, at) => (design === undefined ? [] : [at]));
  request.offers.forEach(({ id, design }, at) => {
    if (design === undefined)
      note(
        ["request", "offers", at],
        `"${id}" has no design, so it is left off: a menu sells pressed garments`,
      );
  });
  const designs = request.designs.map((planned, at) => {
    const found = art.find(({ design }) => design === planned.id);
    const made = designOf(
      planned,
      request,
      found,
      now?.designs.find(({ id }) => id === planned.id),
    );
    if (made.isGuess)
      note(
        ["request", "designs", at],
        `settings of "${planned.id}" are common practice for ${made.design.kind}: take the transfer's own from its sheet`,
      );
    return made.design;
  });
  const ready = readyMade(accepted, new Map(designs.map(({ id, kind }) => [id, kind])));
  return {
    check: [...check, ...ready.check],
    faults: ready.faults,
    rack: ready.rack,
    offersFrom,
    menu: {
      currency: request.currency as Sent["currency"], // the menu's own schema says which it takes
      ...(now === null ? {} : { language: now.language }),
      blanks: blanksOf(request, now),
      designs,
      offers: offersFrom.flatMap((at) => offerOf(request, at, now, note)),
      presses: pressesOf(request, now),
      rules: rulesOf(request, now, note),
    },
    entries: [
      ...bring.skus.map(({ sku, bring: counted }) => ({ sku, counted })),
      ...bring.transfers.map(({ design, bring: counted }) => ({ design, counted })),
    ],
  };
}

/** A name from an id: "fair-day" is "Fair day". */
const worded = (id: string): string => {
  const words = id.replaceAll("-", " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
};

function blanksOf(request: Planned, now: Menu | null): Sent["blanks"] {
  return request.blanks.map(({ id, name, platen, colours, sizes }) => {
    const kept = now?.blanks.find((blank) => blank.id === id);
    return {
      ...(kept ?? { name: name ?? worded(id) }),
      id,
      platen,
      colours: colours.map(
        (colour) =>
          kept?.colours.find((one) => one.id === colour.id) ?? { id: colour.id, name: worded(colour.id) },
      ),
      sizes: sizes.map(
        (size) => kept?.sizes.find((one) => one.id === size.id) ?? { id: size.id, name: size.id },
      ),
    };
  });
}

function designOf(
  { id, name }: Planned["designs"][number],
  { offers, blanks }: Planned,
  art: AcceptedPlan["art"][number] | undefined,
  kept: Design | undefined,
): { readonly design: Sent["designs"][number]; readonly isGuess: boolean } {
  const size = art === undefined ? {} : { widthInches: art.widthInches, heightInches: art.heightInches };
  if (kept !== undefined) return { design: { ...kept, ...size }, isGuess: false };
  const blank = blanks.find((one) => offers.some((offer) => offer.design === id && offer.blank === one.id));
  const [widthInches, heightInches] = USUAL_ART[blank?.platen ?? "flat"];
  const kind = art?.kind ?? "screen-printed";
  return {
    isGuess: true,
    design: {
      widthInches,
      heightInches,
      ...size,
      id,
      name: name ?? worded(id),
      kind,
      settings: USUAL_SETTINGS[kind],
    },
  };
}

type Note = (path: readonly PropertyKey[], detail: string) => void;

/** The price as a menu holds it, in minor units: with or before tax, as the stall's own rule has it. */
function offerOf(request: Planned, at: number, now: Menu | null, note: Note): Sent["offers"] {
  const planned = request.offers[at];
  if (planned?.design === undefined) return [];
  const { id, name, blank, design, price, colours, sizes } = planned;
  const faults = gatherFaults();
  const read = reader(request.currency, faults);
  const { tax } = request.costs;
  const charged = read.money(price, ["request", "offers", at, "price"]);
  const included = tax?.included ?? false;
  const withTax = 1 + (tax === undefined ? 0 : read.share(tax.rate, ["request", "costs", "tax", "rate"]));
  const wanted = now?.rules.taxInPrice ?? included;
  const listed = wanted === included ? charged : Math.round(wanted ? charged * withTax : charged / withTax);
  for (const fault of faults.found()) note([], `${fault.pointer} ${fault.detail}; ${fault.mend}`);
  const {
    colours: _,
    sizes: __,
    surcharges,
    ...kept
  } = now?.offers.find((offer) => offer.id === id) ?? {
    name: name ?? worded(id),
  };
  return [
    {
      ...kept,
      id,
      blank,
      design,
      price: listed,
      ...(surcharges === undefined ? {} : { surcharges: ofSizes(surcharges, request, blank) }),
      ...(colours === undefined ? {} : { colours }),
      ...(sizes === undefined ? {} : { sizes }),
    },
  ];
}

/** The surcharges of the sizes that the plan's blank still has. */
const ofSizes = (
  surcharges: NonNullable<Sent["offers"][number]["surcharges"]>,
  { blanks }: Planned,
  blank: string,
): typeof surcharges => {
  const sizes = blanks.find(({ id }) => id === blank)?.sizes ?? [];
  return Object.fromEntries(
    Object.entries(surcharges).filter(([size]) => sizes.some(({ id }) => id === size)),
  );
};

/** As many presses of each kind as the plan has; those the stall has already keep their letters and their pace. */
function pressesOf({ presses, blanks }: Planned, now: Menu | null): Sent["presses"] {
  const wanted =
    presses.length > 0
      ? presses
      : [...new Set(blanks.map(({ platen }) => platen))].map((platen) => ({
          platen,
          count: 1,
          garmentsPerHour: null,
        }));
  const kept = wanted.flatMap(({ platen, count }) =>
    (now?.presses ?? []).filter((press) => press.platen === platen).slice(0, count),
  );
  const taken = new Set<string>((now?.presses ?? []).map(({ id }) => id));
  const fresh = wanted.flatMap(({ platen, count, garmentsPerHour }) => {
    const have = kept.filter((press) => press.platen === platen).length;
    return Array.from({ length: count - have }, (): Sent["presses"][number] => {
      const id = [...LETTERS].find((letter) => !taken.has(letter)) ?? "Z";
      taken.add(id);
      const seconds = garmentsPerHour === null ? {} : { garmentSeconds: secondsFor(garmentsPerHour) };
      return { id, platen, ...seconds };
    });
  });
  return [...kept, ...fresh];
}

const secondsFor = (perHour: number): Press["garmentSeconds"] =>
  Math.min(900, Math.max(10, Math.round(3600 / perHour)));

function rulesOf({ costs, currency }: Planned, now: Menu | null, note: Note): NonNullable<Sent["rules"]> {
  if (costs.tax === undefined) return now?.rules ?? {};
  const { share } = reader(currency, gatherFaults());
  const taxPartsPerMillion = Math.round(share(costs.tax.rate, []) * 1_000_000);
  if (now === null) return { taxPartsPerMillion, taxInPrice: costs.tax.included };
  if (now.rules.taxPartsPerMillion !== taxPartsPerMillion)
    note(
      ["request", "costs", "tax", "rate"],
      `the stall's own rule stands (${now.rules.taxPartsPerMillion / 10_000} %); change it with the menu if the plan is right`,
    );
  return now.rules;
}
