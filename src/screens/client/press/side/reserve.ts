/** The reserve of a press: the garments its tablet may take without signal. */
import type { JobView, QueueView } from "../../../../model/orders/queue.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import type { Reply } from "../../kit/api.ts";
import type { Act } from "../acts.ts";

type Press = QueueView["presses"][number];

/**
 * What the tablet may do without the stall: "ended" after 20 silent minutes, when the reserve may be released any time.
 */
export type Signal = "there" | "lost" | "ended";

type Take = {
  readonly label: string;
  readonly can: boolean;
  /** The reserved garment to take by name; null: the stall says which is next. */
  readonly job: JobView | null;
};

/** How the next garment is taken: the chosen one, by the stall's choice, or without signal the first of the reserve. */
export function nextTake({ reserve }: Press, signal: Signal, chosen: JobView | null): Take {
  const first = chosen ?? reserve[0];
  if (signal === "there")
    return { label: chosen === null ? "Pull next garment" : `Pull ${chosen.job}`, can: true, job: chosen };
  if (signal === "ended")
    return { label: "No signal for 20 minutes. The reserve has ended", can: false, job: null };
  return first === undefined
    ? { label: "No signal. Nothing reserved for this press", can: false, job: null }
    : { label: `Take ${first.job}, reserved`, can: true, job: first };
}

/** What a pull that brought nothing says if other presses have reserves: the longest was asked for. Null if none has. */
export function idleWords(act: Act, { status }: Reply, queue: QueueView | null): string | null {
  if (act.type !== "pull" || act.job !== null || status !== 204) return null;
  const platen = queue?.presses.find(({ press }) => press === act.press)?.platen;
  const [longest] = (queue?.presses ?? [])
    .filter((other) => other.platen === platen && other.press !== act.press && other.reserve.length > 0)
    .sort((one, other) => other.reserve.length - one.reserve.length);
  return longest === undefined
    ? null
    : `Nothing free for this press now. Press ${longest.press} was asked for some of its reserve.`;
}

/** When a silent press loses its reserve. */
export const untilWords = (until: string | null): string =>
  until === null ? "" : ` If it stays silent, they go back to the queue at ${timeOfDay(until)}.`;

/** What follows "No signal" in the banner; empty with signal. */
export const reservedWords = (presses: readonly Press[], signal: Signal): string =>
  signal === "there"
    ? ""
    : signal === "ended"
      ? " · reserve ended"
      : ` · ${presses.reduce((sum, { reserve }) => sum + reserve.length, 0)} reserved`;

/** What is reserved for a press, in a sentence. */
export const reserveSentence = ({ reserve }: Press): string =>
  reserve.length > 0
    ? `${reserve.length} reserved for this press. You can keep working on ${reserve.length === 1 ? "it" : "them"} without signal for 20 minutes.`
    : "Nothing reserved for this press. If you lose signal, it has to wait.";

/** The label of the button that reserves garments for a press or gives them back. */
export const reserveLabel = ({ reserve, reserves }: Press): string =>
  !reserves ? "Reserve garments" : reserve.length > 0 ? "Give the reserve back" : "Don’t reserve any";
