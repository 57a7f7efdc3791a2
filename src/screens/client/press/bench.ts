/** One press on the page: its tag, the taps on its garment, and what the last of them came to. */
import type { JobView, QueueView } from "../../../model/orders/order.ts";
import { dwell } from "./dwell.ts";
import { type LastTap, type LastWays, lastTap } from "./last.ts";
import { type BenchState, isHot } from "./shown.ts";
import { nextTake, type Signal } from "./side/reserve.ts";
import { type TagNotes, tagOn } from "./tag.ts";

type Press = QueueView["presses"][number];

type BenchNow = {
  readonly press: Press;
  readonly queue: QueueView;
  readonly signal: Signal;
  readonly busy: boolean;
  /** The garment chosen to come next. */
  readonly chosen: JobView | null;
  /** By the stall's clock, in milliseconds since 1970. */
  readonly now: number;
  readonly notes: Omit<TagNotes, "label">;
  /** Whether another press stands beside it. */
  readonly beside: boolean;
};

export type BenchWays = LastWays & {
  readonly pull: () => void;
  readonly pressed: (next: boolean) => void;
  readonly spoiled: () => void;
  readonly giveBack: () => void;
  readonly worksAgain: () => void;
  /** The dwell has started or ended. */
  readonly changed: () => void;
};

export type Bench = {
  readonly last: LastTap;
  /** Shows a press, or nothing; says what could be done there next. */
  readonly show: (now: BenchNow | null) => BenchState;
  /** Fills the main button, or only outlines it. */
  readonly fill: (filled: boolean) => void;
};

const OF_A_GARMENT = ["pressed-next", "pressed", "spoiled", "give-back"] as const;

export function bench(root: HTMLElement, ways: BenchWays): Bench {
  const part = (name: string): HTMLButtonElement => {
    const found = root.querySelector<HTMLButtonElement>(`[data-part="${name}"]`);
    if (found === null) throw new Error(`the bench has no ${name}`);
    return found;
  };
  const [pull, next] = [part("pull"), part("pressed-next")];
  const count = dwell(part("dwell"), ways.changed);
  const last = lastTap(root, ways);
  const tag = tagOn(part("tag"));

  /** The second click of a double tap is meant for what lay there before. */
  const onTap = (button: HTMLElement, tap: () => void): void =>
    button.addEventListener("click", ({ detail }) => {
      if (detail < 2) tap();
    });
  onTap(pull, ways.pull);
  onTap(next, () => ways.pressed(true));
  onTap(part("pressed"), () => ways.pressed(false));
  onTap(part("spoiled"), ways.spoiled);
  onTap(part("give-back"), ways.giveBack);
  onTap(part("works-again"), ways.worksAgain);

  function show(now: BenchNow | null): BenchState {
    root.hidden = now === null;
    count.for(now?.press.job ?? null);
    if (now === null) return "waits";
    const { press, busy, signal, chosen } = now;
    const { job } = press;
    const isDown = press.downSince !== null;
    const had = document.activeElement;
    tag(press, now.queue, { ...now.notes, label: now.beside ? `On press ${press.press}` : "On this press" });
    const take = nextTake(press, signal, chosen);
    pull.hidden = job !== null || isDown;
    pull.textContent = take.label;
    pull.disabled = busy || !take.can;
    part("works-again").hidden = !isDown;
    for (const name of OF_A_GARMENT) {
      part(name).hidden = job === null;
      part(name).disabled = busy;
    }
    last.wait(busy);
    // The button under the thumb gave way to another at its place: the keyboard goes with it.
    if (had instanceof HTMLElement && had.hidden && root.contains(had)) (job === null ? pull : next).focus();
    if (job === null) return isDown ? "waits" : "pulls";
    if (count.over()) return "opens";
    return count.runs() || !isHot(job, now.now) ? "waits" : "presses";
  }

  return {
    last,
    show,
    fill: (filled) => {
      for (const button of [pull, next]) button.classList.toggle("main", filled);
    },
  };
}
