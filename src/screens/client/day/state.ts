/** The day against its plan, in words: what a stall answers, as the page shows it. Pure. */
import type { DaySoFar } from "../../../model/accounts/day-so-far.ts";
import { moneyWords } from "../crew/words/money.ts";

type Currency = Parameters<typeof moneyWords>[1];
type Line = { readonly name: string; readonly says: string };

export type Shown = {
  /** The day in one sentence. */
  readonly verdict: string;
  readonly figures: readonly (readonly [label: string, figure: string])[];
  /** Each list with what to do about it; empty ones are left out. */
  readonly lists: readonly { readonly title: string; readonly lines: readonly Line[] }[];
};

const PACE: Readonly<Record<DaySoFar["pace"], string>> = {
  below: "Slower than planned",
  within: "As planned",
  above: "Busier than planned",
};
/** As many lines of a list as a phone shows. */
const SHOWN = 6;

const whole = (figure: number): string => String(Math.round(figure));
const span = ({ low, high }: { readonly low: number; readonly high: number }): string =>
  `${whole(low)} to ${whole(high)}`;
const pieces = (count: number): string => `${count} ${count === 1 ? "piece" : "pieces"}`;

/** `clock` says an instant as the fair's own clock has it. */
export function shownOf(day: DaySoFar, currency: Currency, clock: (at: string) => string): Shown {
  const { ordered, plannedByNow, wholeDay, dayGone, planDay } = day;
  const until = planDay === undefined || planDay.day === planDay.of ? "at closing" : "after the last day";
  const lists = [
    {
      title: "Runs out before closing",
      lines: day.runsOut.map(({ name, free, at }) => ({
        name,
        says: free === 0 ? "none free" : `${free} free, gone about ${clock(at)}`,
      })),
    },
    {
      title: "Mark down: much will be left",
      lines: day.comesHome.map(({ name, left, loses }) => ({
        name,
        says:
          loses === null || loses === 0
            ? `${pieces(left)} left ${until}`
            : `${pieces(left)} left ${until}, ${moneyWords(loses, currency)} lost in worth`,
      })),
    },
    {
      title: "Stop pressing ahead",
      lines: day.stopPressing.map(({ name, onRack, stillToSell }) => ({
        name,
        says: `${onRack} on the rack, ${whole(stillToSell)} still to sell`,
      })),
    },
  ];
  const which = planDay === undefined ? "" : `Day ${planDay.day} of ${planDay.of}. `;
  return {
    verdict:
      dayGone === 0
        ? `${which}The day has not begun.`
        : `${which}${PACE[day.pace]}: ${ordered} garments ordered, the plan has ${span(plannedByNow)} by now.`,
    figures: [
      ["ordered so far", whole(ordered)],
      ["planned by now", span(plannedByNow)],
      ["by closing, 9 days in 10", span(wholeDay)],
    ],
    lists: lists.flatMap(({ title, lines }) =>
      lines.length === 0 ? [] : [{ title, lines: lines.slice(0, SHOWN) }],
    ),
  };
}
