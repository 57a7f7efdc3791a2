/** The planner's worker as the page uses it: one piece of work at a time, which can be stopped at once. */
import type { Answer, Asked, Told } from "./messages.ts";

type Progress = { readonly stage: string; readonly steps: number };
export type Outcome =
  | Answer
  | { readonly kind: "stopped" }
  /** Something else was asked for before it was done. */
  | { readonly kind: "replaced" }
  | { readonly kind: "broken"; readonly detail: string };

export type PlanWorker = {
  /** Does one piece of work, and stops the running one first. */
  readonly ask: (asked: Asked, onProgress?: (progress: Progress) => void) => Promise<Outcome>;
  readonly stop: (kind?: "stopped" | "replaced") => void;
};

export function planWorker(): PlanWorker {
  let worker: Worker | null = null;
  let settle: ((outcome: Outcome) => void) | null = null;

  const end = (outcome: Outcome): void => {
    const told = settle;
    settle = null;
    told?.(outcome);
  };
  // The planner never waits for messages while it works, so stopping it means ending its thread.
  const stop = (kind: "stopped" | "replaced" = "stopped"): void => {
    if (settle === null) return;
    worker?.terminate();
    worker = null;
    end({ kind });
  };
  return {
    stop,
    ask(asked, onProgress) {
      stop("replaced");
      worker ??= new Worker("/assets/plan-worker.js", { type: "module" });
      const at = worker;
      return new Promise((resolve) => {
        settle = resolve;
        at.onmessage = ({ data }: MessageEvent<Told>) => {
          if (data.kind === "progress") onProgress?.(data);
          else end(data);
        };
        at.onerror = ({ message }) => {
          worker = null;
          at.terminate();
          end({ kind: "broken", detail: message || "the planner could not be loaded; check the connection" });
        };
        at.postMessage(asked);
      });
    },
  };
}
