/** The page's seconds: it counts on while a dwell runs or a tap can still be undone, and not else. */
import type { State } from "../state.ts";
import { ringBell } from "./bell.ts";
import { dwellBy } from "./dwell.ts";

const COUNTING_MS = 100;
const UNDOING_MS = 1000;

export function ticker(state: () => State, change: (to: (before: State) => State) => void) {
  let ticking: ReturnType<typeof setInterval> | undefined;

  /** Call whenever a dwell or the time to undo has begun. */
  function keepTicking(): void {
    clearInterval(ticking);
    const { dwells, last, now } = state();
    const counts = [...dwells.values()].some(({ endsAt }) => endsAt !== null);
    const undoes = [...last.values()].some(({ until }) => until > now);
    if (counts || undoes) ticking = setInterval(tick, counts ? COUNTING_MS : UNDOING_MS);
  }

  /** Rings if a dwell is over. */
  function tick(): void {
    const now = Date.now();
    const before = state().dwells;
    const dwells = new Map([...before].map(([press, dwell]) => [press, dwellBy(dwell, now)] as const));
    if ([...dwells].some(([press, { done }]) => done > (before.get(press)?.done ?? 0))) ringBell();
    change((one) => ({ ...one, now, dwells }));
    keepTicking();
  }

  return { keepTicking };
}
