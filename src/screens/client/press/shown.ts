/** What the press page shows, from the last view with the unanswered taps in it. Pure: nothing here touches the page. */
import type { JobView, QueueView } from "../../../model/orders/queue.ts";
import { temperature } from "../crew/words/settings.ts";

type Press = QueueView["presses"][number];

/** "365 °F (185 °C)", or "310 → 365 °F (185 °C)" if the platen has another temperature so far. */
export const heatStep = (from: number | null, to: number): string =>
  from === null || from === to ? temperature(to) : `${from} → ${temperature(to)}`;

/** Whether the platen is thought to be as hot as its garment needs; `now` in milliseconds since 1970. */
export const isHot = ({ setTo }: Pick<JobView, "setTo">, now: number): boolean =>
  setTo === null || now >= Date.parse(setTo.readyAt);

export type UpNext = {
  readonly job: JobView;
  /** The temperature, with the one before where it changes. */
  readonly heat: string;
  readonly changes: boolean;
  /** Reserved for this press, so it can be pulled by name. */
  readonly reserved: boolean;
  readonly chosen: boolean;
};

/** The garments that wait for this press: the chosen one, its reserve, then those of the queue that fit its platen. */
export function upNext(
  press: Press,
  queue: QueueView,
  chosen: string | null,
  most: number,
): readonly UpNext[] {
  const fits = queue.next.filter(({ platen }) => platen === press.platen);
  const reserve = [...press.reserve].sort(
    (one, other) => Number(other.job === chosen) - Number(one.job === chosen),
  );
  let before = press.job?.settings.temperatureFahrenheit ?? press.fahrenheit;
  return [...reserve, ...fits].slice(0, most).map((job, index) => {
    const to = job.settings.temperatureFahrenheit;
    const from = before;
    before = to;
    return {
      job,
      heat: from === null || from === to ? `${to} °F` : `${from} → ${to} °F`,
      changes: from !== null && from !== to,
      reserved: index < reserve.length,
      chosen: job.job === chosen,
    };
  });
}

/** Who and what needs somebody, each in one line; empty if nothing does. */
export function problemsOf(
  queue: QueueView,
  standing: readonly string[],
  stallNow: number,
): readonly string[] {
  const { short, notTold, presses } = queue;
  const parts: string[] = [];
  if (notTold.length > 0) parts.push(`Call out ${notTold.join(", ")}: no text reached them.`);
  for (const { job, colourName, blankName, sizeName, designName } of short)
    parts.push(`${job} is short: no ${colourName} ${blankName} ${sizeName}, or no ${designName} transfer.`);
  for (const { press, downSince, silentFrom } of presses)
    if (downSince !== null && !standing.includes(press)) parts.push(`Press ${press} is out of order.`);
    else if (silentFrom !== null && stallNow >= Date.parse(silentFrom))
      parts.push(
        `Press ${press} stands still while garments wait. If it is out of order, say so under Presses; if a hand left, under Shift.`,
      );
  return parts;
}

/** What a bench could do next. */
export type BenchState = "pulls" | "waits" | "presses" | "opens";

/** The one bench whose main button is filled: an open platen first, then a garment to press, then an empty press. */
export function filledBench(states: readonly BenchState[]): number | null {
  for (const state of ["opens", "presses", "pulls"] as const) {
    const at = states.indexOf(state);
    if (at >= 0) return at;
  }
  return null;
}

/** The presses of a tablet, as the browser keeps them: "A", or "A B" for two side by side. */
export const standingIn = (kept: string | null): readonly string[] =>
  kept === null
    ? []
    : kept
        .split(" ")
        .filter((press) => press !== "")
        .slice(0, 2);
