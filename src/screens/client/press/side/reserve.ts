/** What is reserved for a press: all that its tablet may take without signal. */
import type { QueueView } from "../../../../model/orders/order.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import type { Reply } from "../../kit/api.ts";
import { byId } from "../../kit/dom.ts";
import type { Act } from "../acts.ts";

type Press = QueueView["presses"][number];

/** What the tablet may do without the stall: "ended" after 20 silent minutes, when the reserve may be let go any time. */
export type Signal = "there" | "lost" | "ended";

/** The label of the button that takes the next garment, and whether there is one to take. */
export function nextTake(
  { reserve }: Press,
  signal: Signal,
): { readonly label: string; readonly can: boolean } {
  const [first] = reserve;
  if (signal === "there") return { label: "Pull the next", can: true };
  if (signal === "ended") return { label: "No signal for 20 minutes. The reserve has ended", can: false };
  return first === undefined
    ? { label: "No signal. Nothing reserved for this press", can: false }
    : { label: `Take ${first.job}, reserved`, can: true };
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

/** What follows "No signal" at the top of the page; empty with signal. */
const reservedWords = ({ reserve }: Press, signal: Signal): string =>
  signal === "there" ? "" : signal === "ended" ? " · reserve ended" : ` · ${reserve.length} reserved`;

export function showReserve(press: Press, signal: Signal): void {
  const { reserve, reserves } = press;
  byId("reserved-say").textContent = reservedWords(press, signal);
  byId("reserve-say").textContent =
    reserve.length > 0
      ? `${reserve.length} reserved for this press. You can keep working on ${reserve.length === 1 ? "it" : "them"} without signal for 20 minutes.`
      : "Nothing reserved for this press. If you lose signal, it has to wait.";
  byId("reserve").textContent = !reserves
    ? "Reserve garments"
    : reserve.length > 0
      ? "Give the reserve back"
      : "Don’t reserve any";
}
