/** The plan in inches and money, as plain data a page can draw. */
import type { SheetLayout, SheetPlan, SheetRequest } from "../../model/planning/sheets.ts";
import { cutsInOrder } from "../packing/cuts.ts";
import { roomLeft } from "./room.ts";
import {
  costOf,
  type GangProblem,
  priceOf,
  type SheetRun,
  toUnits,
  UNITS_PER_INCH,
} from "./search/problem.ts";

const inches = (units: number) => units / UNITS_PER_INCH;

export function layoutsInInches(
  request: SheetRequest,
  problem: GangProblem,
  runs: readonly SheetRun[],
): SheetLayout[] {
  const designs = request.designs.map((design) => ({
    ...design,
    width: inches(toUnits(design.width, request.unit)),
    height: inches(toUnits(design.height, request.unit)),
  }));
  return runs.map(({ layout, copies }, at): SheetLayout => {
    const size = problem.sizes[layout.size];
    const sold = request.sheets[layout.size];
    if (!size || !sold) throw new Error("layoutsInInches: a run on a sheet size that is not there");
    const price = priceOf(problem, layout.size, copies);
    const width = toUnits(sold.width, request.unit);
    const height = toUnits(sold.height, request.unit);
    const lying = layout.placed.map((placement) => ({
      ...placement,
      x: placement.x + size.margin,
      y: placement.y + size.margin,
      width: placement.width - size.gap,
      height: placement.height - size.gap,
    }));
    const cuts = cutsInOrder(lying, { x: 0, y: 0, width, height });
    const printed = lying.reduce((sum, piece) => sum + piece.width * piece.height, 0);
    const point = ({ x, y }: { x: number; y: number }) => ({ x: inches(x), y: inches(y) });
    return {
      layout: at + 1,
      sheet: sold.id,
      width: inches(width),
      height: inches(height),
      copies,
      pricePerSheet: price / copies,
      price,
      pieces: lying.map((piece) => ({
        design: designs[piece.piece]?.id ?? "",
        ...point(piece),
        width: inches(piece.width),
        height: inches(piece.height),
        turned: piece.turned,
      })),
      cuts:
        cuts?.map((cut, index) => ({
          order: index + 1,
          direction: cut.direction,
          from: point(cut.from),
          to: point(cut.to),
        })) ?? null,
      fill: printed / (width * height),
      room: roomLeft(layout, size, designs),
    };
  });
}

export function transfersOf(request: SheetRequest, runs: readonly SheetRun[]): SheetPlan["transfers"] {
  return request.designs.map((design, at) => {
    const made = runs.reduce((sum, { layout, copies }) => sum + copies * (layout.counts[at] ?? 0), 0);
    const spare = Math.max(0, made - design.count);
    return {
      design: design.id,
      wanted: design.count,
      made,
      spare,
      missing: Math.max(0, design.count - made),
    };
  });
}

export function costsOf(problem: GangProblem, runs: readonly SheetRun[]): SheetPlan["cost"] {
  const total = costOf(problem, runs);
  const extraLayouts = Math.max(0, runs.length - 1) * problem.extraLayoutPrice;
  return { sheets: total - extraLayouts, extraLayouts, total };
}

export const sheetsIn = (runs: readonly SheetRun[]) => runs.reduce((sum, { copies }) => sum + copies, 0);
