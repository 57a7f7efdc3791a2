/** The effect of each part of the lessons on the advice and on the expected profit. */
import type { OrFaults } from "../model/basics/faults.ts";
import { ok } from "../model/basics/result.ts";
import type { Plan } from "../model/planning/plan-answer.ts";
import type { PlanRequest } from "../model/planning/plan-request.ts";
import { planFair } from "./plan.ts";

type Part = Plan["taught"][number]["part"];

/** The plan with one part of the lessons beside the plan without it, all else as it is. */
export type TaughtEffect = {
  readonly part: Part;
  /** Of the expected profit, in minor units. */
  readonly profit: number;
  /** Of the blanks to have, those of garments printed ahead included. */
  readonly blanks: number;
  /** The blanks that change most, in pieces; the largest change first. */
  readonly moves: readonly { readonly sku: string; readonly pieces: number }[];
  /** The way to run the stall, if it changes. */
  readonly way: Plan["best"] | null;
};

/** Two plans on the same few days differ by the change alone: more days do not show it better. */
const MOST_DAYS = 200;
const MOST_MOVES = 2;

const EMPTY: Readonly<Record<Part, Partial<PlanRequest["lessons"][number]>>> = {
  buying: { buying: undefined },
  offers: { offers: [] },
  colours: { colours: [] },
  sizes: { sizes: [] },
  spoilage: { spoilage: undefined },
};

const without = (request: PlanRequest, parts: readonly Part[]): PlanRequest => ({
  ...request,
  lessons: request.lessons.map((lesson) => Object.assign({}, lesson, ...parts.map((part) => EMPTY[part]))),
});

const hasEvidence = ({ lessons }: PlanRequest, part: Part): boolean =>
  lessons.some((lesson) => {
    const evidence = lesson[part];
    return Array.isArray(evidence) ? evidence.length > 0 : evidence !== undefined;
  });

/** For every part that has evidence; `leftOut` are the parts that the plan does without now. Gives the plan's own faults. */
export function taughtEffects(
  sent: PlanRequest,
  leftOut: readonly string[],
): OrFaults<readonly TaughtEffect[]> {
  const { parts: _, ...alone } = sent;
  const request: PlanRequest = { ...alone, scenarios: Math.min(sent.scenarios, MOST_DAYS) };
  const parts = (Object.keys(EMPTY) as Part[]).filter((part) => hasEvidence(request, part)); // the keys of the record above
  const out = parts.filter((part) => leftOut.includes(part));
  const now = planFair(without(request, out));
  if (!now.ok) return now;
  const effects: TaughtEffect[] = [];
  for (const part of parts) {
    const isOut = out.includes(part);
    const other = planFair(without(request, isOut ? out.filter((one) => one !== part) : [...out, part]));
    if (!other.ok) return other;
    effects.push(isOut ? between(part, now.value, other.value) : between(part, other.value, now.value));
  }
  return ok(effects);
}

const blanksOf = ({ bring }: Plan): ReadonlyMap<string, number> =>
  new Map(bring.shopping.flatMap(({ kind, item, need }) => (kind === "sku" ? [[item, need] as const] : [])));

function between(part: Part, before: Plan, after: Plan): TaughtEffect {
  const [was, is] = [blanksOf(before), blanksOf(after)];
  const moves = [...new Set([...was.keys(), ...is.keys()])]
    .map((sku) => ({ sku, pieces: (is.get(sku) ?? 0) - (was.get(sku) ?? 0) }))
    .filter(({ pieces }) => pieces !== 0)
    .sort((one, other) => Math.abs(other.pieces) - Math.abs(one.pieces));
  return {
    part,
    profit: after.money.expectedProfit - before.money.expectedProfit,
    blanks: moves.reduce((sum, { pieces }) => sum + pieces, 0),
    moves: moves.slice(0, MOST_MOVES),
    way: after.best === before.best ? null : after.best,
  };
}
