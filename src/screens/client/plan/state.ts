/** What the planning page shows, as plain values: a day, its answers, the step that is open, and what is worked out next. */
import type { MendableFault } from "../../../model/basics/faults.ts";
import type { Plan } from "../../../model/planning/plan-answer.ts";
import type { SheetPlan } from "../../../model/planning/sheets.ts";
import { type Json, rowsAt, withValue } from "../kit/json-pointer.ts";
import { hasLessons, planFor } from "./day/after.ts";
import type { Day } from "./day/first.ts";
import { withFollowing } from "./day/following.ts";
import { type FromPlan, fromPlan, isBySheet, pitchFor, powerFor, sheetsFor } from "./day/parts.ts";
import type { Answers, Asked, Part } from "./messages.ts";

export const STEPS = [
  ["fair", "Fair"],
  ["products", "Products"],
  ["costs", "Costs"],
  ["answer", "Answer"],
  ["gear", "Gear"],
  ["sheets", "Sheets"],
  ["print", "Print"],
] as const;
export type Step = (typeof STEPS)[number][0] | "plans";

/** The parts of a step that has several, the first of them open at first. */
export const TABS: Readonly<Partial<Record<Step, readonly (readonly [tab: string, name: string])[]>>> = {
  answer: [
    ["bring", "To bring"],
    ["money", "Money"],
    ["matters", "What matters"],
    ["ways", "Ways to run it"],
    ["hours", "By hour"],
  ],
  gear: [
    ["presses", "Presses"],
    ["power", "Power"],
    ["pitch", "Pitch"],
  ],
  print: [
    ["packing", "Packing list"],
    ["blanks", "Blanks to order"],
    ["transfers", "Transfers to order"],
    ["questions", "Questions"],
    ["organiser", "Organiser’s sheet"],
  ],
};

export type Place = { readonly step: Step; readonly tab: string };

type Amiss = { readonly key: string; readonly faults: readonly MendableFault[] };

export type State = {
  readonly id: string;
  readonly day: Day;
  readonly answers: Answers;
  readonly amiss: { readonly [P in Part]?: Amiss };
  readonly place: Place;
  /** What is being worked out, and how far it is. */
  readonly working: { readonly part: Part; readonly says: string } | null;
  /** Stopped by hand: nothing is worked out until a figure changes or somebody asks for it. */
  readonly stopped: boolean;
  /** The latest event, for screen readers. */
  readonly note: string | null;
};

/** Addresses of earlier versions of the page, which links elsewhere may still name. */
const EARLIER: Readonly<Record<string, string>> = {
  plan: "answer",
  presses: "gear-presses",
  power: "gear-power",
  pitch: "gear-pitch",
  organiser: "print-organiser",
};

/** The place an address names: "#gear-power", "#fair"; the first step for any other. */
export function placeFrom(hash: string): Place {
  const name = hash.replace(/^#/, "");
  const [step = "", tab = ""] = (EARLIER[name] ?? name).split("-");
  const known = step === "plans" ? "plans" : (STEPS.find(([one]) => one === step)?.[0] ?? "fair");
  const tabs = TABS[known] ?? [];
  return { step: known, tab: tabs.find(([one]) => one === tab)?.[0] ?? tabs[0]?.[0] ?? "" };
}

export const addressOf = ({ step, tab }: Place): string => (tab === "" ? `#${step}` : `#${step}-${tab}`);

export function stateOf(id: string, day: Day, answers: Answers, place: Place): State {
  return { id, day, answers, amiss: {}, place, working: null, stopped: false, note: null };
}

/** The plan's answer, whether or not figures have changed since. */
export function planOf({ answers }: Pick<State, "answers">): Plan | null {
  return answers.plan?.answer.part === "plan" ? answers.plan.answer.answer : null;
}

/** The sheets to order: the plan's own if it buys on them, else those worked out from its counts. */
export function sheetsOf(state: Pick<State, "day" | "answers">): SheetPlan | null {
  if (isBySheet(state.day)) return planOf(state)?.parts?.sheets ?? null;
  const { answer } = state.answers.sheets ?? {};
  return answer?.part === "sheets" ? answer.answer : null;
}

/** The part whose answer has the sheets. */
export const sheetsPart = ({ day }: Pick<State, "day">): "plan" | "sheets" =>
  isBySheet(day) ? "plan" : "sheets";

export const given = (state: Pick<State, "day" | "answers">): FromPlan => fromPlan(state.day, planOf(state));

/** What the planner is asked for a part. */
export function asked(state: Pick<State, "day" | "answers">, part: Part): Asked {
  const { day } = state;
  const requests: Readonly<Record<Part, () => Json>> = {
    plan: () => planFor(day),
    presses: () => day.presses,
    sheets: () => sheetsFor(day, given(state)),
    power: () => powerFor(day, given(state)),
    pitch: () => pitchFor(day, given(state)),
    taught: () => planFor({ ...day, organiser: withValue(day.organiser, "#/leftOut", undefined) }),
  };
  const beside =
    part === "presses" ? planFor(day) : part === "taught" ? rowsAt(day.organiser, "#/leftOut") : null;
  return { part, request: requests[part](), plan: beside };
}

/** Counted up when answers gain a figure that the pages show: one that was kept before is worked out again. */
const ANSWER_SHAPE = 3;

export const keyOf = ({ part, request, plan }: Asked): string =>
  JSON.stringify([ANSWER_SHAPE, part, request, plan]);

export type Standing = "none" | "now" | "out-of-date" | "faulty";

/** The state of a part's answer: whether its figures have changed since. */
export function standing(state: State, part: Part): Standing {
  const key = keyOf(asked(state, part));
  if (state.amiss[part]?.key === key) return "faulty";
  const answer = state.answers[part];
  if (answer === undefined) return "none";
  return answer.key === key ? "now" : "out-of-date";
}

export const faultsOf = (state: State, part: Part): readonly MendableFault[] =>
  state.amiss[part]?.faults ?? [];

/** The parts that a place shows beside the plan. */
const SHOWS: Readonly<Record<string, readonly Part[]>> = {
  "gear-presses": ["presses"],
  "gear-power": ["power"],
  "gear-pitch": ["pitch"],
  sheets: ["sheets"],
  "print-transfers": ["sheets"],
  "print-packing": ["power"],
  "print-organiser": ["power", "pitch"],
};

/** The next part to work out: the plan first, then what the open step shows; null if all is up to date. */
export function nextPart(state: State): Part | null {
  if (state.stopped) return null;
  const isTaught = state.place.step === "fair" && hasLessons(state.day);
  const wanted: readonly Part[] = [
    "plan",
    ...(SHOWS[addressOf(state.place).slice(1)] ?? []).map((part) =>
      part === "sheets" ? sheetsPart(state) : part,
    ),
    ...(isTaught ? (["taught"] as const) : []),
  ];
  return wanted.find((part) => ["none", "out-of-date"].includes(standing(state, part))) ?? null;
}

export function changed(state: State, part: keyof Day, pointer: string, value: Json | undefined): State {
  const { day, says } = withFollowing(state.day, part, pointer, value);
  return { ...state, day, stopped: false, note: says };
}

const STAGES = ["demand", "what to bring", "smaller menu", "money", "other parts"];

export const progressWords = (stage: string): string =>
  `${stage}, part ${Math.max(0, STAGES.indexOf(stage)) + 1} of ${STAGES.length - 1}`;
