/** The dwell, counted down from the tap that closes the platen; one count for each time it comes down. */
import type { JobView } from "../../../model/orders/order.ts";
import { dwells } from "../crew/words/settings.ts";
import { element } from "../kit/dom.ts";
import { readyBell, ringBell } from "./bell.ts";

const TICK = 100;

export type Dwell = {
  /** Makes ready for a garment; the same one again changes nothing, null puts it away. */
  readonly for: (job: JobView | null) => void;
  /** The platen is down and the time runs. */
  readonly runs: () => boolean;
  /** The time is over: the platen is to be opened. */
  readonly over: () => boolean;
};

/** The count on this button; `changed` is called when it starts and when it ends. */
export function dwell(button: HTMLElement, changed: () => void): Dwell {
  let job: JobView | null = null;
  let done = 0;
  let endsAt: number | null = null;
  let timer: ReturnType<typeof setInterval> | undefined;

  /** What the button says: in large, and in small below. */
  const words = (counts: readonly number[], left: number): readonly [string, string] => {
    if (endsAt !== null) return [`${Math.ceil(left / 1000)} s`, "tap to stop"];
    const next = counts[done];
    if (next === undefined) return ["Open now", "tap to count again"];
    const which = counts.length === 1 ? "" : `, ${done + 1} of ${counts.length}`;
    return done === 0
      ? [`Count ${next}\u00a0s${which}`, "tap as it closes"]
      : ["Open now", `tap to count ${next} s${which}`];
  };

  const show = (): void => {
    button.hidden = job === null;
    if (job === null) return;
    const counts = dwells(job.settings);
    const left = endsAt === null ? 0 : Math.max(0, endsAt - Date.now());
    const [large, small] = words(counts, left);
    const said = `${large}${small}`;
    // Replaced only where it says something else, so that a tap on its way finds its target.
    if (button.textContent !== said) button.replaceChildren(large, element("span", {}, small));
    button.classList.toggle("counting", endsAt !== null);
    button.classList.toggle("open-now", endsAt === null && done > 0);
    button.style.setProperty("--left", String(left / ((counts[done] ?? 1) * 1000)));
  };

  const stop = (): void => {
    clearInterval(timer);
    endsAt = null;
  };

  const tick = (): void => {
    const isOver = endsAt !== null && Date.now() >= endsAt;
    if (isOver) {
      stop();
      done += 1;
      ringBell();
    }
    show();
    if (isOver) changed();
  };

  button.addEventListener("click", () => {
    if (job === null) return;
    readyBell();
    if (endsAt === null) {
      const counts = dwells(job.settings);
      if (done >= counts.length) done = 0;
      endsAt = Date.now() + (counts[done] ?? 0) * 1000;
      timer = setInterval(tick, TICK);
    } else stop();
    show();
    changed();
  });

  return {
    for: (next) => {
      if (next?.job !== job?.job) {
        stop();
        done = 0;
        job = next;
      }
      show();
    },
    runs: () => endsAt !== null,
    over: () => endsAt === null && done > 0,
  };
}
