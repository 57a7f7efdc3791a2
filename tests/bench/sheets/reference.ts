/**
 * Plans to hold the planner's own against, made without it: layouts by a general packing library from many
 * starts (registry package `maxrects-packer` 2.7.4, MIT), copies by an integer program over all these layouts
 * (HiGHS: registry package `highs` 1.15.3, MIT). Layouts of the planner may be added to the program.
 */
// By its file: the plain import of this package gives no exports to Node (types: ../../maxrects-packer.d.ts).
import { MaxRectsPacker } from "maxrects-packer/dist/maxrects-packer.mjs";
import { type Random, seededRandom } from "../../../src/maths/random.ts";
import type { SheetRequest } from "../../../src/model/planning/sheets.ts";
import { cheapestByHighs, type Pattern } from "../../planning/optimum.ts";

const STARTS = 12;
const MOST_PATTERNS = 400;
const HIGHS_SECONDS = 3;

export type Reference = { readonly packer: number; readonly program: number };

/** The least costs found: by equal copies of every layout, and by the integer program. */
export async function referencePlans(
  request: SheetRequest,
  planned: readonly Pattern[],
  known: number,
): Promise<Reference> {
  const random = seededRandom(1);
  const most = Math.max(...request.designs.map(({ count }) => count));
  let packer = Number.POSITIVE_INFINITY;
  const plans: { readonly cost: number; readonly patterns: readonly Pattern[] }[] = [];
  for (const size of request.sheets.keys()) {
    for (let copies = most; copies >= 1; copies = Math.min(copies - 1, Math.floor(copies / 1.04))) {
      for (let start = 0; start < STARTS; start++) {
        const patterns = packed(request, size, copies, start === 0 ? null : random);
        if (patterns === null) break;
        const cost =
          patterns.length * priceOf(request, size, copies) + (patterns.length - 1) * request.extraLayoutPrice;
        packer = Math.min(packer, cost);
        plans.push({ cost, patterns });
      }
    }
  }
  plans.sort((a, b) => a.cost - b.cost);
  const pool = new Map<string, Pattern>();
  for (const pattern of [...planned, ...plans.flatMap(({ patterns }) => patterns)]) {
    if (pool.size < MOST_PATTERNS) pool.set(`${pattern.size} ${pattern.counts.join()}`, pattern);
  }
  const best = Math.min(packer, known);
  const optimum = await cheapestByHighs(request, [...pool.values()], best, HIGHS_SECONDS);
  return { packer, program: Number.isFinite(optimum.cost) && optimum.cost > 0 ? optimum.cost : best };
}

/** The price of at least this many copies: of more, if that is cheaper. */
function priceOf(request: SheetRequest, size: number, needed: number): number {
  const { prices = [], minimumCopies = 1 } = request.sheets[size] ?? {};
  const copies = [needed, minimumCopies, ...prices.map((line) => line.copies)];
  return Math.min(
    ...copies
      .filter((many) => many >= needed && many >= minimumCopies)
      .map((many) => many * (prices.filter((line) => line.copies <= many).at(-1)?.price ?? Infinity)),
  );
}

/** All pieces for `copies` of each layout, in the library's own order or one drawn by chance; null if one is too large. */
function packed(
  request: SheetRequest,
  size: number,
  copies: number,
  random: Random | null,
): Pattern[] | null {
  const sheet = request.sheets[size];
  if (!sheet) return null;
  // Thousandths of an inch are whole numbers here; a piece and the sheet are wider by one gap.
  const units = (length: number) => Math.round(length * 1000);
  const width = units(sheet.width - 2 * sheet.margin + sheet.gap);
  const height = units(sheet.height - 2 * sheet.margin + sheet.gap);
  const noise = random === null ? 0 : 0.2 + 0.8 * random.next();
  const pieces = request.designs.flatMap((design, at) =>
    Array.from({ length: Math.ceil(design.count / copies) }, () => {
      const wide = units(design.width + sheet.gap);
      const high = units(design.height + sheet.gap);
      const turn = design.mayTurn && (wide > width || high > height || (random?.chance(0.5) ?? false));
      const [w, h] = turn ? [high, wide] : [wide, high];
      const key = Math.max(w, h) * (1 + noise * (random?.next() ?? 0));
      const allowRotation = design.mayTurn;
      // The library reads the rule for one piece from the field behind its accessor.
      return { width: w, height: h, allowRotation, _allowRotation: allowRotation, data: at, key };
    }),
  );
  if (pieces.some((piece) => piece.width > width || piece.height > height)) return null;
  const options = { smart: false, pot: false, square: false, allowRotation: true };
  const packer = new MaxRectsPacker(width, height, 0, options);
  for (const piece of pieces.sort((a, b) => b.key - a.key)) packer.add(piece as never); // fields it adds itself
  return packer.bins.map((bin) => {
    const counts = request.designs.map(() => 0);
    for (const { data } of bin.rects) counts[data] = (counts[data] ?? 0) + 1;
    return { size, counts };
  });
}
