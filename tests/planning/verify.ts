/**
 * An independent check of a plan of gang sheets, written from the rules and not from the planner: it shares no
 * code with src/planning. Gives every broken rule in words; an empty list is a sound plan.
 */
import type { SheetLayout, SheetPlan, SheetRequest } from "../../src/model/planning/sheets.ts";

const CLOSE = 1e-6; // inches: the planner works in ten-thousandths of a millimetre, some 4e-6 in

export function brokenRules(request: SheetRequest, plan: SheetPlan): string[] {
  const inch = (length: number) => (request.unit === "cm" ? length / 2.54 : length);
  const broken: string[] = [];
  const made = new Map<string, number>();
  let cost = Math.max(0, plan.layouts.length - 1) * request.extraLayoutPrice;
  let sheets = 0;

  for (const layout of plan.layouts) {
    const where = `layout ${layout.layout}`;
    const size = request.sheets.find(({ id }) => id === layout.sheet);
    if (!size) {
      broken.push(`${where}: no sheet ${layout.sheet}`);
      continue;
    }
    if (!Number.isInteger(layout.copies) || layout.copies < size.minimumCopies)
      broken.push(`${where}: ${layout.copies} copies`);
    const line = size.prices.filter(({ copies }) => copies <= layout.copies).at(-1);
    cost += layout.copies * (line?.price ?? Number.NaN);
    sheets += layout.copies;
    for (const piece of layout.pieces) {
      const design = request.designs.find(({ id }) => id === piece.design);
      if (!design) {
        broken.push(`${where}: no design ${piece.design}`);
        continue;
      }
      made.set(design.id, (made.get(design.id) ?? 0) + layout.copies);
      const [width, height] = piece.turned ? [design.height, design.width] : [design.width, design.height];
      if (piece.turned && !design.mayTurn) broken.push(`${where}: ${design.id} may not turn`);
      if (Math.abs(piece.width - inch(width)) > 1e-5 || Math.abs(piece.height - inch(height)) > 1e-5) {
        broken.push(`${where}: ${design.id} has changed its size`);
      }
    }
    broken.push(...overlaps(layout, inch(size.margin), inch(size.gap)).map((rule) => `${where}: ${rule}`));
    if (request.cuts === "guillotine" && layout.cuts === null) broken.push(`${where}: no cuts`);
    if (layout.cuts !== null) broken.push(...cutFaults(layout).map((rule) => `${where}: ${rule}`));
  }

  if (cost !== plan.cost.total) broken.push(`the cost is ${cost}, not ${plan.cost.total}`);
  if (sheets !== plan.sheets) broken.push(`there are ${sheets} sheets, not ${plan.sheets}`);
  for (const { design, made: said, wanted, spare, missing } of plan.transfers) {
    const count = made.get(design) ?? 0;
    if (count !== said) broken.push(`${design}: ${count} made, not ${said}`);
    if (plan.ask === "least-cost" && count < wanted) broken.push(`${design}: ${count} made of ${wanted}`);
    if (spare !== Math.max(0, count - wanted) || missing !== Math.max(0, wanted - count))
      broken.push(`${design}: spare or missing wrong`);
  }
  return broken;
}

function overlaps(layout: SheetLayout, margin: number, gap: number): string[] {
  const broken: string[] = [];
  layout.pieces.forEach((piece, at) => {
    const right = piece.x + piece.width;
    const top = piece.y + piece.height;
    if (piece.x < margin - CLOSE || piece.y < margin - CLOSE) broken.push(`${piece.design} in the margin`);
    if (right > layout.width - margin + CLOSE || top > layout.height - margin + CLOSE)
      broken.push(`${piece.design} over the edge`);
    for (const other of layout.pieces.slice(at + 1)) {
      const apart = Math.max(
        other.x - right,
        piece.x - (other.x + other.width),
        other.y - top,
        piece.y - (other.y + other.height),
      );
      if (apart < gap - CLOSE) broken.push(`${piece.design} and ${other.design} are ${apart} apart`);
    }
  });
  return broken;
}

/** Plays the cuts: each must part one piece of paper from edge to edge and cross no print. */
function cutFaults(layout: SheetLayout): string[] {
  const broken: string[] = [];
  let parts = [{ x: 0, y: 0, width: layout.width, height: layout.height }];
  layout.cuts?.forEach((cut, at) => {
    if (cut.order !== at + 1) broken.push(`cut ${at + 1} is numbered ${cut.order}`);
    const upward = cut.direction === "upward";
    const line = upward ? cut.from.x : cut.from.y;
    const part = parts.find(
      ({ x, y, width, height }) =>
        (upward ? line > x && line < x + width : line > y && line < y + height) &&
        near(cut.from, upward ? { x: line, y } : { x, y: line }) &&
        near(cut.to, upward ? { x: line, y: y + height } : { x: x + width, y: line }),
    );
    if (!part) {
      broken.push(`cut ${cut.order} does not go from edge to edge of a part in hand`);
      return;
    }
    for (const piece of inside(layout, part)) {
      const low = upward ? piece.x : piece.y;
      const high = low + (upward ? piece.width : piece.height);
      if (line > low + CLOSE && line < high - CLOSE) broken.push(`cut ${cut.order} crosses ${piece.design}`);
    }
    parts = parts.filter((other) => other !== part);
    parts.push(
      upward ? { ...part, width: line - part.x } : { ...part, height: line - part.y },
      upward
        ? { ...part, x: line, width: part.x + part.width - line }
        : { ...part, y: line, height: part.y + part.height - line },
    );
  });
  for (const part of parts) if (inside(layout, part).length > 1) broken.push("two pieces are not parted");
  return broken;
}

function near(a: { x: number; y: number }, b: { x: number; y: number }): boolean {
  return Math.abs(a.x - b.x) < CLOSE && Math.abs(a.y - b.y) < CLOSE;
}

function inside(layout: SheetLayout, part: { x: number; y: number; width: number; height: number }) {
  return layout.pieces.filter(({ x, y, width, height }) => {
    const middleX = x + width / 2;
    const middleY = y + height / 2;
    return (
      middleX > part.x && middleX < part.x + part.width && middleY > part.y && middleY < part.y + part.height
    );
  });
}
