import type { Fault } from "../model/fault.ts";

/** What every planner answers: its plan, or all that is wrong with the request. */
export type Planned<Plan> =
  | { readonly outcome: "planned"; readonly plan: Plan }
  | { readonly outcome: "faults"; readonly faults: readonly Fault[] };

type Steps = readonly (string | number)[];

/** A JSON Pointer (RFC 6901) to a place in the request. */
export const pointerTo = (steps: Steps): string =>
  steps.map((step) => `/${String(step).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");

/** Gathers faults, so that one answer can name them all. */
export class FaultList {
  readonly faults: Fault[] = [];

  add(steps: Steps, detail: string, mend: string): void {
    this.faults.push({ pointer: pointerTo(steps), detail, mend });
  }

  /** A number that has to lie between two ends, both allowed; `what` begins a sentence. */
  between(steps: Steps, value: number | undefined, least: number, most: number, what: string): boolean {
    if (value === undefined) return true;
    if (value >= least && value <= most) return true;
    this.add(steps, `${what} is ${value}.`, `Give a number from ${least} to ${most}.`);
    return false;
  }

  /** Names that must differ from one another. */
  distinct(names: readonly (readonly [Steps, string])[], what: string): void {
    const seen = new Set<string>();
    for (const [steps, name] of names) {
      if (seen.has(name)) this.add(steps, `${what} "${name}" is named twice.`, "Give each its own name.");
      seen.add(name);
    }
  }
}
