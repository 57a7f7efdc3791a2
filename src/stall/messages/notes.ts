/** Wishes in free words go to the people's rows, by garment: the journal holds none of them. */
import type { WantedLine } from "../../model/orders/order.ts";
import type { OrderChange } from "../rules/commands.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

/** The words on each garment of some lines, in the order of the lines. */
const wordsOf = (lines: readonly Pick<WantedLine, "quantity" | "note">[]): readonly (string | null)[] =>
  lines.flatMap(({ quantity, note = null }) => Array.from({ length: quantity }, () => note));

/** Notes the words on the garments of a new order, which are numbered from 1 in the order of its lines. */
export function notePlaced({ people }: UnitOfWork, number: number, lines: readonly WantedLine[]): void {
  const said = wordsOf(lines).flatMap((words, at) => (words === null ? [] : [[at + 1, words] as const]));
  people.noteGarments(number, new Map(said));
}

/** Notes the words on garments that were changed or added, and forgets those of garments that became others or left. */
export function noteChanged(
  { people, state }: UnitOfWork,
  number: number,
  changes: readonly OrderChange[],
): void {
  const words = new Map<number, string | null>();
  for (const change of changes) {
    if (change.type === "add") continue;
    const note = change.type === "instead" ? (change.garment.note ?? null) : null;
    for (const n of change.jobs) words.set(n, note);
  }
  const added = wordsOf(changes.flatMap((change) => (change.type === "add" ? [change.line] : [])));
  const jobs = state.order(number)?.jobs.slice(-added.length || undefined) ?? [];
  for (const [at, note] of added.entries()) {
    const n = jobs[at]?.n;
    if (n !== undefined && note !== null) words.set(n, note);
  }
  const known = [...words].filter(([n, note]) => note !== null || people.noteOf(number, n) !== undefined);
  people.noteGarments(number, new Map(known));
}
