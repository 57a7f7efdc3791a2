/** The planners off the page's main thread: the same pure code that answers POST /v1/plans. */

import { z } from "zod";
import type { MendableFault } from "../../../model/basics/faults.ts";
import { mendable } from "../../../model/basics/request-faults.ts";
import { PitchRequest } from "../../../model/planning/pitch.ts";
import { PowerRequest } from "../../../model/planning/power.ts";
import { PressesWish } from "../../../model/planning/presses.ts";
import { readPlanRequest } from "../../../model/planning/read-plan.ts";
import { SheetRequest } from "../../../model/planning/sheets.ts";
import { planPitch } from "../../../planning/pitch/pitch.ts";
import { planFair } from "../../../planning/plan.ts";
import { planPower } from "../../../planning/power/power.ts";
import { pressesFromPlan } from "../../../planning/presses/press-asks.ts";
import { planPresses } from "../../../planning/presses/presses.ts";
import { planSheets } from "../../../planning/sheets/sheets.ts";
import { taughtEffects } from "../../../planning/taught-effects.ts";
import type { Json } from "../kit/json-pointer.ts";
import type { Answer, Asked, Told } from "./messages.ts";

// Compiling checks at run time is what the page's policy forbids.
z.config({ jitless: true });

const tell = (told: Told): void => self.postMessage(told);

function plan(request: Json): Answer {
  const read = readPlanRequest(request);
  if (!read.ok) return { kind: "faults", faults: read.refusal };
  const outcome = planFair(read.value, ({ stage, steps }) => tell({ kind: "progress", stage, steps }));
  return outcome.ok
    ? { kind: "answer", part: "plan", answer: outcome.value }
    : { kind: "faults", faults: outcome.refusal };
}

function sheets(request: Json): Answer {
  const read = SheetRequest.safeParse(request);
  if (!read.success) return { kind: "faults", faults: mendable(read.error) };
  const answer = planSheets(read.data);
  if (answer.kind === "plan") return { kind: "answer", part: "sheets", answer };
  const faults = answer.faults.map(({ pointer, fault, mend }) => ({
    pointer: `#${pointer}`,
    detail: fault,
    mend,
  }));
  return { kind: "faults", faults };
}

function power(request: Json): Answer {
  const read = PowerRequest.safeParse(request);
  if (!read.success) return { kind: "faults", faults: mendable(read.error) };
  const outcome = planPower(read.data);
  return outcome.ok
    ? { kind: "answer", part: "power", answer: outcome.value }
    : { kind: "faults", faults: outcome.refusal };
}

function pitch(request: Json): Answer {
  const read = PitchRequest.safeParse(request);
  if (!read.success) return { kind: "faults", faults: mendable(read.error) };
  const outcome = planPitch(read.data);
  return outcome.ok
    ? { kind: "answer", part: "pitch", answer: outcome.value }
    : { kind: "faults", faults: outcome.refusal };
}

/** A request for presses has days of its own, which the plan's replace. */
const wishIn = (request: Json): Json => {
  if (typeof request !== "object" || request === null || Array.isArray(request)) return request;
  const own = new Set(["currency", "seed", "closesAtSeconds", "scenarios", "spoilage"]);
  return Object.fromEntries(Object.entries(request).filter(([name]) => !own.has(name)));
};

function presses(request: Json, sent: Json): Answer {
  const read = PressesWish.safeParse(wishIn(request));
  if (!read.success) return { kind: "faults", faults: mendable(read.error) };
  const day = readPlanRequest(sent);
  const filled = day.ok ? pressesFromPlan(read.data, day.value) : day;
  if (!filled.ok) return { kind: "faults", faults: filled.refusal.map(inThePlan) };
  const outcome = planPresses(filled.value);
  return outcome.ok
    ? { kind: "answer", part: "presses", answer: outcome.value }
    : { kind: "faults", faults: outcome.refusal };
}

/** A fault of the day's own request, with its place there, although only the presses were asked for. */
const inThePlan = ({ pointer, detail, mend }: MendableFault): MendableFault => ({
  pointer: `plan request ${pointer}`,
  detail,
  mend,
});

function taught(request: Json, leftOut: Json): Answer {
  const read = readPlanRequest(request);
  if (!read.ok) return { kind: "faults", faults: read.refusal };
  const outcome = taughtEffects(read.value, Array.isArray(leftOut) ? leftOut.map(String) : []);
  return outcome.ok
    ? { kind: "answer", part: "taught", answer: outcome.value }
    : { kind: "faults", faults: outcome.refusal };
}

const PLANNERS = { plan, sheets, presses, power, pitch, taught } as const;

self.onmessage = ({ data }: MessageEvent<Asked>) => tell(PLANNERS[data.part](data.request, data.plan));
