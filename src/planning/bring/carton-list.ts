import type { PlanBring, PlanCarton } from "../../model/planning/plan-answer.ts";
import type { Prepared } from "../request/prepared.ts";

/**
 * Which goods go into which carton: each blank by colour and size, cartons filled up; then decorated garments;
 * transfers together in one folder, since they are flat.
 */
export function cartonList(prepared: Prepared, bring: PlanBring): PlanCarton[] {
  const cartons: PlanCarton[] = [];
  for (const blank of prepared.blanks) {
    const lines = bring.skus
      .filter((line) => line.blank === blank.id)
      .map(({ sku, bring: pieces }) => ({ what: sku, pieces }));
    fill(cartons, lines, blank.perCarton, blank.name);
    const ready = bring.ready.filter(
      (line) => prepared.blanks[prepared.offers.find(({ id }) => id === line.offer)?.blank ?? -1] === blank,
    );
    fill(
      cartons,
      ready.map(({ offer, colour, size, bring: pieces }) => ({
        what: `${offer} ${colour} ${size}, decorated`,
        pieces,
      })),
      blank.perCarton,
      `${blank.name}, decorated`,
    );
  }
  const transfers = bring.transfers.flatMap(({ design, bring: pieces }) =>
    pieces > 0 ? [{ what: `transfer ${design}`, pieces }] : [],
  );
  if (transfers.length > 0)
    cartons.push({ carton: "Folder of transfers", lines: transfers, pieces: sum(transfers) });
  return cartons;
}

type Line = PlanCarton["lines"][number];

function fill(cartons: PlanCarton[], lines: readonly Line[], room: number, name: string): void {
  const filled: Line[][] = [];
  let left = 0;
  for (const { what, pieces } of lines) {
    for (let rest = pieces; rest > 0; ) {
      if (left === 0) {
        filled.push([]);
        left = room;
      }
      const here = Math.min(rest, left);
      filled.at(-1)?.push({ what, pieces: here });
      rest -= here;
      left -= here;
    }
  }
  filled.forEach((own, at) => {
    cartons.push({ carton: `${name} ${at + 1} of ${filled.length}`, lines: own, pieces: sum(own) });
  });
}

function sum(lines: readonly Line[]): number {
  return lines.reduce((total, { pieces }) => total + pieces, 0);
}
