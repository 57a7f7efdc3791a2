/**
 * Whether pieces fit on a given number of sheets, decided exactly for few pieces: every way to share them out
 * among the sheets, largest first, each sheet's share checked by the exact test for one sheet (the two-level
 * search of Martello and Vigo 1998, Management Science 44, 388-399).
 */
import type { Cuts, PackPiece, PackSteps, Placement, Sheet } from "./shapes.ts";
import { singleSheet } from "./single.ts";

export type Sharing =
  | { readonly fits: "yes"; readonly sheets: readonly (readonly Placement[])[] }
  | { readonly fits: "no" }
  | { readonly fits: "unknown" };

/** One step for every piece put to a sheet, besides what the test for one sheet takes. */
export function shareOut(
  pieces: readonly PackPiece[],
  sheet: Sheet,
  count: number,
  cuts: Cuts,
  steps: PackSteps,
): Sharing {
  const { kinds, kindOf } = byKind(pieces);
  const single = singleSheet(kinds, sheet, cuts);
  const areas = pieces.map((piece) => piece.width * piece.height);
  const order = pieces
    .map((_, index) => index)
    .sort((a, b) => (areas[b] ?? 0) - (areas[a] ?? 0) || (kindOf[a] ?? 0) - (kindOf[b] ?? 0));
  const shares: number[][] = []; // pieces of each kind on each sheet begun
  const homes: number[] = []; // the sheet of each piece of `order` so far
  let unsure = false;

  const search = (at: number): boolean => {
    const piece = order[at];
    if (piece === undefined) return true;
    const kind = kindOf[piece] ?? 0;
    // A twin never goes to an earlier sheet than the twin before it.
    const twin = at > 0 && kindOf[order[at - 1] ?? 0] === kind;
    const tried = new Set<string>();
    for (let home = twin ? (homes[at - 1] ?? 0) : 0; home < Math.min(count, shares.length + 1); home++) {
      const share = shares[home] ?? kinds.map(() => 0);
      const content = share.join();
      if (tried.has(content)) continue;
      tried.add(content);
      if (steps.left <= 0) {
        unsure = true;
        return false;
      }
      steps.left -= 1;
      const grown = share.map((many, index) => (index === kind ? many + 1 : many));
      const verdict = single.decide(grown, steps);
      if (verdict.fits === "unknown") unsure = true;
      if (verdict.fits !== "yes") continue;
      const begun = home === shares.length;
      shares[home] = grown;
      homes[at] = home;
      if (search(at + 1)) return true;
      if (begun) shares.pop();
      else shares[home] = share;
    }
    return false;
  };

  if (!search(0)) return { fits: unsure ? "unknown" : "no" };
  const waiting = kinds.map((_, kind) => order.filter((piece) => kindOf[piece] === kind));
  const sheets = shares.map((share) => {
    const verdict = single.decide(share, steps);
    if (verdict.fits !== "yes") throw new Error("shareOut: a share that fitted no longer does");
    return verdict.placed.map((placement) => ({ ...placement, piece: waiting[placement.piece]?.pop() ?? 0 }));
  });
  return { fits: "yes", sheets };
}

function byKind(pieces: readonly PackPiece[]): { kinds: PackPiece[]; kindOf: number[] } {
  const kinds: PackPiece[] = [];
  const seen = new Map<string, number>();
  const kindOf = pieces.map((piece) => {
    const key = `${piece.width} ${piece.height} ${piece.mayTurn}`;
    const known = seen.get(key);
    if (known !== undefined) return known;
    seen.set(key, kinds.length);
    return kinds.push(piece) - 1;
  });
  return { kinds, kindOf };
}
