import type { Plan, PlanQuestion } from "../../model/planning/plan-answer.ts";
import { honestly, profitError } from "../words/summary.ts";

type Asked = Pick<PlanQuestion, "ask" | "question">;

/** Questions about each thing that the plan may depend on. */
const QUESTIONS: Readonly<Record<string, readonly Asked[]>> = {
  "passers-by": [
    { ask: "organiser", question: "How many people came each day last year, and how were they counted?" },
    {
      ask: "organiser",
      question: "Which way do people walk from the gate, and how many of them pass our pitch?",
    },
    {
      ask: "last year's stalls",
      question: "Which hours were busiest, and was your pitch on the way or off it?",
    },
  ],
  "share who stop and buy": [
    { ask: "last year's stalls", question: "How many sales did you make in the day, and of what price?" },
    {
      ask: "last year's stalls",
      question: "Who comes: families, walkers, collectors? Do they carry bags home?",
    },
  ],
  weather: [
    {
      ask: "organiser",
      question: "What happens if it rains: is there cover, does the fair close, is the fee returned?",
    },
    { ask: "last year's stalls", question: "How empty was it on a wet day?" },
  ],
  prices: [
    { ask: "last year's stalls", question: "At what price did a decorated garment stop selling?" },
    { ask: "organiser", question: "How many other stalls sell clothing, and at what prices?" },
  ],
  "cost of blanks": [
    {
      ask: "crew",
      question: "What does each blank cost with freight and tax at the quantities planned, and until when?",
    },
  ],
  "cost of transfers": [
    {
      ask: "crew",
      question: "What does each transfer cost at the copies planned, spares and freight included?",
    },
  ],
  "worth of blanks that come home": [
    {
      ask: "crew",
      question: "When is the next fair these blanks can go to, and what would selling them back bring?",
    },
  ],
  "garments an hour at a press": [
    {
      ask: "crew",
      question:
        "How long do ten garments take from pull to hand-over, timed with the crew that will be there?",
    },
    { ask: "organiser", question: "How many circuits can we have, and is anybody else on them?" },
  ],
  "patience of customers": [
    {
      ask: "last year's stalls",
      question: "How long did people wait before they gave up, and did they come back when called?",
    },
  ],
  spoilage: [{ ask: "crew", question: "How many of the last hundred garments were spoiled, and why?" }],
};

/** Asked whatever the plan hangs on. */
const ALWAYS: readonly Asked[] = [
  {
    ask: "organiser",
    question: "From when can we load in, how near can the van come, and when must we be gone?",
  },
  { ask: "organiser", question: "Is there a mobile signal at the pitch at noon, when everybody is there?" },
];

/** The question sheet: first what moves the expected profit most. */
export function questionSheet(plan: Pick<Plan, "money" | "scenarios" | "currency">): PlanQuestion[] {
  const sum = (minor: number): string => honestly(minor, profitError(plan), plan.currency);
  const asked = plan.money.swings.flatMap(({ what, swing }) =>
    (QUESTIONS[what] ?? []).map((asks) => ({
      ...asks,
      why: `${what}: low to high moves the expected profit by ${sum(swing)}`,
    })),
  );
  return [...asked, ...ALWAYS.map((asks) => ({ ...asks, why: "needed for any plan" }))];
}
