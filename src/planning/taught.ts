/** The changes that lessons of earlier fairs make to a plan's own figures: each before and after, with its sample. */
import { mean } from "../maths/sample.ts";
import type { Plan } from "../model/planning/plan-answer.ts";
import type { PlanRequest } from "../model/planning/plan-request.ts";
import { prepare } from "./request/prepare.ts";
import type { Prepared } from "./request/prepared.ts";

type Change = Plan["taught"][number];
type Lessons = PlanRequest["lessons"];

/** Every figure changed by the request's lessons, in menu order; empty without lessons. */
export function taughtBy(request: PlanRequest): Change[] {
  if (request.lessons.length === 0) return [];
  const [after, before] = [prepare(request), prepare({ ...request, lessons: [] })];
  if (!after.ok || !before.ok) return [];
  return [
    ...buyingChange(before.value, after.value, request.lessons),
    ...offerChanges(before.value, after.value, request.lessons),
    ...blankChanges(before.value, after.value, request.lessons, "colours"),
    ...blankChanges(before.value, after.value, request.lessons, "sizes"),
    ...spoilageChange(before.value, after.value, request.lessons),
  ];
}

const shares = (weights: ArrayLike<number>): number[] => {
  const all = Array.from(weights);
  const sum = all.reduce((total, weight) => total + weight, 0);
  return all.map((weight) => (sum > 0 ? weight / sum : 0));
};
const total = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0);

function buyingChange(before: Prepared, after: Prepared, lessons: Lessons): Change[] {
  const rateOf = ({ buying }: Prepared): number => {
    if (buying === null) return 0;
    return typeof buying.rate === "number" ? buying.rate : mean(buying.rate);
  };
  const sample = total(lessons.map(({ buying }) => buying?.orders ?? 0));
  if (sample === 0) return [];
  return [{ part: "buying", of: "who stop and buy", before: rateOf(before), after: rateOf(after), sample }];
}

function offerChanges(before: Prepared, after: Prepared, lessons: Lessons): Change[] {
  const sample = total(lessons.flatMap(({ offers }) => offers.map(({ asks }) => asks)));
  if (sample === 0) return [];
  const [was, is] = [before, after].map(({ offers }) => shares(offers.map(({ weight }) => weight)));
  return after.offers.map(({ name }, at) => ({
    part: "offers",
    of: name,
    before: was?.[at] ?? 0,
    after: is?.[at] ?? 0,
    sample,
  }));
}

function blankChanges(
  before: Prepared,
  after: Prepared,
  lessons: Lessons,
  part: "colours" | "sizes",
): Change[] {
  return after.blanks.flatMap((blank, at) => {
    const rows = lessons.flatMap((lesson) => lesson[part].filter((row) => row.blank === blank.id));
    const sample = total(rows.map(({ asks }) => asks));
    if (sample === 0) return [];
    const was = shares(before.blanks[at]?.[part].weights ?? []);
    const is = shares(blank[part].weights);
    return blank[part].names.map((name, choice) => ({
      part,
      of: `${blank.name}, ${name}`,
      before: was[choice] ?? 0,
      after: is[choice] ?? 0,
      sample,
    }));
  });
}

function spoilageChange(before: Prepared, after: Prepared, lessons: Lessons): Change[] {
  const sample = total(lessons.map(({ spoilage }) => spoilage?.pressed ?? 0));
  if (sample === 0) return [];
  return [{ part: "spoilage", of: "spoiled", before: before.spoilage, after: after.spoilage, sample }];
}
