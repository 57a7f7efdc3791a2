/** The dwell, counted down from the tap that closes the platen; one count for each time it comes down. */
import type { JobView } from "../../../model/order.ts";
import { byId, element } from "../kit/dom.ts";
import { readyBell, ringBell } from "./bell.ts";
import { dwells } from "./settings.ts";

const TICK = 100;

export type Dwell = {
  /** Makes ready for a garment; the same one again changes nothing, null puts it away. */
  readonly for: (job: JobView | null) => void;
};

export function dwell(): Dwell {
  const button = byId("dwell");
  let job: JobView | null = null;
  let done = 0;
  let endsAt: number | null = null;
  let timer: ReturnType<typeof setInterval> | undefined;

  const face = element("p", { class: "dwell-face", role: "timer", hidden: true });

  const label = (): string => {
    if (job === null) return "";
    const counts = dwells(job.settings);
    if (endsAt !== null) return "Stop the count";
    const next = counts[done];
    if (next === undefined) return "Count again";
    const which = counts.length === 1 ? "" : `, press ${done + 1} of ${counts.length}`;
    return `Platen closed: count ${next} s${which}`;
  };

  const show = (): void => {
    button.hidden = job === null;
    button.textContent = label();
    const total = job === null ? 0 : (dwells(job.settings)[done] ?? 0);
    const left = endsAt === null ? 0 : Math.max(0, endsAt - Date.now());
    const finished = job !== null && done > 0;
    face.hidden = endsAt === null && !finished;
    face.classList.toggle("open-now", endsAt === null && finished);
    if (endsAt !== null) face.textContent = `${Math.ceil(left / 1000)} s`;
    else if (finished && job !== null)
      face.textContent = job.settings.peel === "hot" ? "Open. Peel hot." : `Open. Peel ${job.settings.peel}.`;
    face.style.setProperty("--left", total === 0 ? "0" : String(left / (total * 1000)));
  };

  const stop = (): void => {
    clearInterval(timer);
    endsAt = null;
  };

  const tick = (): void => {
    if (endsAt !== null && Date.now() >= endsAt) {
      stop();
      done += 1;
      ringBell();
    }
    show();
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
  });

  return {
    for: (next) => {
      if (next?.job !== job?.job) {
        stop();
        done = 0;
        job = next;
      }
      byId("tag").append(face);
      show();
    },
  };
}
