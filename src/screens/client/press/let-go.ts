/** The news for a press that was silent for so long that its reserve was released. */
import type { QueueView } from "../../../model/orders/queue.ts";

type Press = QueueView["presses"][number];

const listed = (jobs: readonly string[]): string => jobs.join(", ");

/** Which garments went where, in words; null if all of them are on this press or done here. */
export function letGoNews({ press, letGo }: Press): string | null {
  if (letGo === null) return null;
  const gone = letGo.jobs.filter((job) => job.press !== press);
  if (gone.length === 0) return null;
  const elsewhere = [...new Set(gone.flatMap((job) => job.press ?? []))];
  const parts = elsewhere.map((other) => {
    const there = gone.filter((job) => job.press === other).map(({ job }) => job);
    return `At press ${other} now: ${listed(there)}.`;
  });
  const ended = gone.filter(({ stage }) => stage === null).map(({ job }) => job);
  if (ended.length > 0) parts.push(`Order ended: ${listed(ended)}.`);
  const waiting = gone.filter(({ press: at, stage }) => at === null && stage !== null).map(({ job }) => job);
  if (waiting.length > 0) parts.push(`Back in the queue: ${listed(waiting)}.`);
  return `Press ${press} was silent for 20 minutes, so its reserve was let go. ${parts.join(" ")} Don’t press these here unless you pull them again.`;
}
