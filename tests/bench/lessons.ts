/** What 200 simulated fairs with a known truth and early sell-outs teach. */
import { learntFrom } from "../../src/lessons/learnt.ts";
import { coverage } from "../lessons/families.ts";
import { judged } from "../simulation/judged-lessons.ts";
import { livedFair } from "../simulation/wishes.ts";
import type { Bench, Figure } from "./figure.ts";

const FAIRS = 200;
const FIRST_SEED = 1;

const figure = (name: string, value: number, goal: Figure["goal"], unit: string): Figure => ({
  bench: "lessons",
  name,
  figure: value,
  goal,
  unit,
});

/** The same span is too narrow below 0.85 and too wide above 0.95. */
const spans = (what: string, share: number): Figure[] => [
  figure(`90 % spans that hold the true ${what}`, share, { atLeast: 0.85 }, "share"),
  figure("the same, not by being wide", share, { atMost: 0.95 }, "share"),
];

const FAMILIES = 200;
const NAMES = {
  sizes: "share of a size",
  colours: "share of a colour",
  offers: "share of an offer",
  buying: "orders per hundred",
  spoilage: "share spoiled",
  all: "figure of any kind",
} as const;

/** Families of fairs that differ: whether the span holds the truth of the fair after them. */
function nextFairs(): Figure[] {
  return [2, 3, 5, 10].flatMap((fairs) => {
    const covered = coverage((lessons) => learntFrom(lessons), FAMILIES, fairs);
    return (Object.keys(NAMES) as (keyof typeof NAMES)[]).flatMap(
      (
        figure, // its own keys
      ) => spans(`${NAMES[figure]} at the next fair, after ${fairs}`, covered[figure]),
    );
  });
}

function run(): readonly Figure[] {
  const fairs = Array.from({ length: FAIRS }, (_, index) => livedFair(FIRST_SEED + index));
  const found = judged(fairs);
  const asked = fairs.reduce((sum, { askedBySize }) => sum + askedBySize.reduce((a, b) => a + b, 0), 0);
  return [
    figure("fairs", fairs.length, null, "fairs"),
    figure(
      "garments asked for in vain",
      fairs.reduce((sum, { unmet }) => sum + unmet, 0) / asked,
      null,
      "of asks",
    ),
    ...spans("share of a size", found.sizes),
    ...spans("share of a colour", found.colours),
    ...spans("share of an offer", found.offers),
    ...spans("orders per hundred passers-by", found.ordersPerHundred),
    ...spans("share spoiled", found.spoilage),
    ...nextFairs(),
    figure(
      "fairs whose size mix from asks is nearer than from sales",
      found.asksNearer,
      { atLeast: 0.9 },
      "share",
    ),
    figure("distance of the size mix from asks", found.fromAsks, null, "of 1"),
    figure("distance of the size mix from sales", found.fromSales, null, "of 1"),
  ];
}

export const bench: Bench = { name: "lessons", run: () => Promise.resolve(run()) };
