/** The messages between the page and its planning worker. */
import type { MendableFault } from "../../../model/basics/faults.ts";
import type { PitchPlan } from "../../../model/planning/pitch.ts";
import type { Plan } from "../../../model/planning/plan-answer.ts";
import type { PowerPlan } from "../../../model/planning/power.ts";
import type { PressesPlan } from "../../../model/planning/presses.ts";
import type { SheetPlan } from "../../../model/planning/sheets.ts";
import type { TaughtEffect } from "../../../planning/taught-effects.ts";
import type { Json } from "../kit/json-pointer.ts";

export const PARTS = ["plan", "sheets", "presses", "power", "pitch"] as const;
/** A part with figures of its own in a day. */
export type DayPart = (typeof PARTS)[number];
/** The parts the worker computes: those, and the effects of the lessons. */
export type Part = DayPart | "taught";

/**
 * The presses are planned on the days of the plan request, which comes along with every ask; what was taught, with the
 * parts of the lessons that are left out.
 */
export type Asked = { readonly part: Part; readonly request: Json; readonly plan: Json };

export type Answer =
  | { readonly kind: "faults"; readonly faults: readonly MendableFault[] }
  | { readonly kind: "answer"; readonly part: "plan"; readonly answer: Plan }
  | { readonly kind: "answer"; readonly part: "sheets"; readonly answer: SheetPlan }
  | { readonly kind: "answer"; readonly part: "presses"; readonly answer: PressesPlan }
  | { readonly kind: "answer"; readonly part: "power"; readonly answer: PowerPlan }
  | { readonly kind: "answer"; readonly part: "pitch"; readonly answer: PitchPlan }
  | { readonly kind: "answer"; readonly part: "taught"; readonly answer: readonly TaughtEffect[] };

export type Told = Answer | { readonly kind: "progress"; readonly stage: string; readonly steps: number };

/** An answer, with its request. */
export type Answered = { readonly key: string; readonly answer: Extract<Answer, { kind: "answer" }> };
export type Answers = { readonly [P in Part]?: Answered };
