/** A checked request in whole units: what every search below works on. */
import type { Work } from "../../../maths/work.ts";
import type { SheetRequest } from "../../../model/planning/sheets.ts";
import type { Cuts, PackPiece, PackSteps, Placement, Sheet } from "../../packing/shapes.ts";
import { areaOn, type SingleSheet, singleSheet } from "../../packing/single.ts";
import { pricesOf, type SheetPrices } from "./prices.ts";

/**
 * A unit is a ten-thousandth of a millimetre: hundredths of a millimetre and thousandths of an inch are both
 * whole numbers of it, so that "it fits" is never a matter of rounding.
 */
export const UNITS_PER_INCH = 254_000;
const UNITS_PER_CENTIMETRE = 100_000;

export type DesignSize = {
  readonly at: number;
  /** Inside the margins, widened by one gap. */
  readonly sheet: Sheet;
  /** Every design, widened by one gap. */
  readonly kinds: readonly PackPiece[];
  readonly margin: number;
  readonly gap: number;
  readonly prices: SheetPrices;
  readonly single: SingleSheet;
};

/** So many transfers of every design on one sheet of a size. */
export type Layout = {
  readonly size: number;
  readonly counts: readonly number[];
  readonly placed: readonly Placement[];
};

/** A layout with the copies ordered of it. */
export type SheetRun = { readonly layout: Layout; readonly copies: number };

export type GangProblem = {
  readonly wanted: readonly number[];
  readonly sizes: readonly DesignSize[];
  readonly extraLayoutPrice: number;
  readonly cuts: Cuts;
  readonly steps: PackSteps;
  /** The steps left at the last pause. */
  readonly paused: { at: number };
};

export function toUnits(length: number, unit: "in" | "cm"): number {
  return Math.round(length * (unit === "in" ? UNITS_PER_INCH : UNITS_PER_CENTIMETRE));
}

export function problemOf(request: SheetRequest): GangProblem {
  const units = (length: number) => toUnits(length, request.unit);
  const wanted = request.designs.map((design) => design.count);
  const sizes = request.sheets.map((size, at): DesignSize => {
    const gap = units(size.gap);
    const margin = units(size.margin);
    const sheet = {
      width: units(size.width) - 2 * margin + gap,
      height: units(size.height) - 2 * margin + gap,
    };
    const kinds = request.designs.map((design) => ({
      width: units(design.width) + gap,
      height: units(design.height) + gap,
      mayTurn: design.mayTurn,
    }));
    return {
      at,
      sheet,
      kinds,
      margin,
      gap,
      prices: pricesOf(size),
      single: singleSheet(kinds, sheet, request.cuts),
    };
  });
  return {
    wanted,
    sizes,
    extraLayoutPrice: request.extraLayoutPrice,
    cuts: request.cuts,
    steps: { left: request.steps },
    paused: { at: request.steps },
  };
}

/** The price of all runs together, including the layouts after the first. */
export function costOf(problem: GangProblem, runs: readonly SheetRun[]): number {
  const sheets = runs.reduce((sum, { layout, copies }) => sum + priceOf(problem, layout.size, copies), 0);
  return sheets + Math.max(0, runs.length - 1) * problem.extraLayoutPrice;
}

export function priceOf(problem: GangProblem, size: number, copies: number): number {
  const order = problem.sizes[size]?.prices.exactly(copies);
  if (!order) throw new Error(`priceOf: ${copies} copies cannot be ordered`);
  return order.price;
}

/**
 * No plan costs less than this: the room that the transfers' own area takes, at the lowest price there is for room. With
 * one size that is an order of whole sheets, since one large order never costs more than several small ones.
 */
export function roomCost({ wanted, sizes }: GangProblem): number {
  const costs = sizes.map(({ prices, single }) => {
    const sheets = Math.max(
      1e-9,
      areaOn(
        single.areas.map((area) => Math.min(1, area)),
        wanted,
      ),
    );
    return sizes.length === 1
      ? prices.atLeast(Math.ceil(sheets)).price
      : Math.ceil(prices.least * sheets - 1e-6);
  });
  return Math.min(...costs);
}

/** The counts of `wanted` still missing after these runs; never below 0. */
export function lacking(wanted: readonly number[], runs: readonly SheetRun[]): number[] {
  return wanted.map((want, at) =>
    Math.max(
      0,
      runs.reduce((left, { layout, copies }) => left - copies * (layout.counts[at] ?? 0), want),
    ),
  );
}

/** Steps between two pauses: some milliseconds of work. */
const STEPS_BETWEEN = 25_000;

/** Lets the caller do something else if enough was done since it last could. */
export function* pause({ steps, paused }: Pick<GangProblem, "steps" | "paused">): Work<void> {
  if (paused.at - steps.left < STEPS_BETWEEN) return;
  paused.at = steps.left;
  yield 0;
}
