import type { Combination, HourFigures, OneMore, PressesPlan } from "../../model/planning/presses.ts";
import { counted, listed, plural, round } from "../words/phrases.ts";
import { honestly } from "../words/summary.ts";

const minutes = (seconds: number): string => `${round(seconds / 60)} min`;

/** The opening hour in which the most customers walk, or wait the longest if none does. */
export function pinchIn(hours: readonly HourFigures[], closesAtSeconds: number): PressesPlan["pinch"] {
  const open = hours.filter(({ fromSeconds, asked }) => fromSeconds < closesAtSeconds && asked > 0);
  const [worst] = [...open].sort(
    (a, b) => b.walked - a.walked || (b.ninetiethWaitSeconds ?? 0) - (a.ninetiethWaitSeconds ?? 0),
  );
  if (worst === undefined) return null;
  const hour = round(worst.fromSeconds / 3600) + 1;
  const waits =
    worst.ninetiethWaitSeconds === null
      ? ""
      : `, and one in ten waits over ${minutes(worst.ninetiethWaitSeconds)}`;
  return {
    platen: worst.platen,
    fromSeconds: worst.fromSeconds,
    says: `Busiest at the ${worst.platen} press: hour ${hour} after opening, ${round(worst.asked)} garments asked for, ${round(worst.walked, 1)} customers give up${waits}.`,
  };
}

/** The combination looked at, in sentences. */
export function pressesInWords(
  combination: Combination,
  oneMore: readonly OneMore[],
  pinch: PressesPlan["pinch"],
  currency: string,
): string[] {
  const presses = combination.presses.map(({ platen, presses: count }) =>
    plural(count, `${platen} press`, `${platen} presses`),
  );
  const says = [
    `With ${listed(presses)} and ${combination.people === 1 ? "one person" : `${counted(combination.people)} people`} the day earns ${honestly(combination.earns, 0, currency)} on average after presses, power and wages.`,
  ];
  for (const row of combination.platens)
    if (row.medianWaitSeconds !== null && row.ninetiethWaitSeconds !== null)
      says.push(
        `${row.platen === "flat" ? "Flat" : "Cap"} press: typical wait under ${minutes(row.medianWaitSeconds)}; 9 in 10 under ${minutes(row.ninetiethWaitSeconds)}; ${round(row.walkedShare * 100)} % give up.`,
      );
  if (pinch !== null) says.push(pinch.says);
  says.push(
    combination.lateNinetiethSeconds < 60
      ? "The last garment is off by closing, nine days in ten."
      : `The last garment is off ${minutes(combination.lateMedianSeconds)} after closing, ${minutes(combination.lateNinetiethSeconds)} on one day in ten.`,
  );
  for (const { more, earns, standardError } of oneMore) {
    const sum = honestly(Math.abs(earns), standardError, currency);
    const isNothing = sum === honestly(0, 0, currency);
    const change = earns >= 0 ? `earns ${sum} more` : `costs ${sum} more than it brings`;
    says.push(
      isNothing
        ? `One more ${more} changes nothing that can be told from these days.`
        : `One more ${more} ${change} a day (give or take ${honestly(2 * standardError, 0, currency)}).`,
    );
  }
  return says;
}
