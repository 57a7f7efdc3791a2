/** Faults planted in the code under test, by tests only: the simulation must find each of them. */
import { TextRouting } from "../../../src/fair/text-routing.ts";
import { OrderIndex } from "../../../src/stall/state/order-index.ts";
import { StallState } from "../../../src/stall/state/state.ts";
import { Rows } from "./storage.ts";

type Planted = {
  /** The rule that must be seen to break. */
  readonly breaks: string;
  /** Plants the fault and gives what takes it out again. */
  readonly plant: () => () => void;
  /** Where the search begins, for a fault that few fairs show. */
  readonly from?: number;
};

/** Replaces a method while a fault is planted. */
function replaced<T extends object, K extends keyof T>(of: T, name: K, by: (real: T[K]) => T[K]): () => void {
  const real = of[name];
  of[name] = by(real);
  return () => {
    of[name] = real;
  };
}

export const PLANTED: Readonly<Record<string, Planted>> = {
  "one more is promised than is there": {
    breaks: "0 <= promised <= onHand",
    plant: () =>
      replaced(
        StallState.prototype,
        "free",
        (real) =>
          function (this: StallState, piece) {
            return real.call(this, piece) + 1;
          },
      ),
  },
  "an expired hold keeps its promise": {
    breaks: "promises",
    plant: () =>
      replaced(
        OrderIndex.prototype,
        "holdChanged",
        (real) =>
          function (this: OrderIndex, before, after) {
            const lines = after === undefined ? [] : undefined;
            real.call(this, before && lines ? { ...before, lines } : before, after);
          },
      ),
  },
  "a garment on a press stays in the line": {
    breaks: "one press a garment",
    plant: () =>
      replaced(
        OrderIndex.prototype,
        "orderChanged",
        (real) =>
          function (this: OrderIndex, before, after) {
            const pulled = after?.jobs.find(
              (job, at) => job.stage === "pressing" && before?.jobs[at]?.stage === "waiting",
            );
            const waiting = before?.jobs[(pulled?.n ?? 0) - 1];
            real.call(this, before, after);
            if (pulled !== undefined && waiting?.stage === "waiting" && after !== undefined) {
              const line = after.lines[pulled.line];
              if (line === undefined) return;
              this.waiting[line.platen].add({
                turn: waiting.turn,
                number: after.number,
                n: pulled.n,
                work: `${line.platen}/${line.kind}`,
              });
            }
          },
      ),
  },
  "pickup numbers begin again": {
    breaks: "pickup numbers",
    plant: () =>
      replaced(
        StallState.prototype,
        "setStatus",
        (real) =>
          function (this: StallState, status) {
            real.call(this, { ...status, nextNumber: 101 + ((status.nextNumber - 101) % 3) });
          },
      ),
  },
  "a repeated write is not known again": {
    breaks: "nothing twice",
    plant: () =>
      replaced(
        Rows.prototype,
        "put",
        (real) =>
          function (this: Rows, key, value) {
            if (!key.startsWith("seen:")) real.call(this, key, value);
          },
      ),
  },
  "opting out holds for one stall only": {
    breaks: "no text after opting out",
    from: 135,
    // The other stalls are not informed, and the fair does not know when one of them asks before it sends.
    plant: () => {
      const takeOuts = [
        replaced(TextRouting.prototype, "setStopped", () => () => []),
        replaced(TextRouting.prototype, "stoppedAmong", () => () => []),
      ];
      return () => {
        for (const takeOut of takeOuts) takeOut();
      };
    },
  },
  "a finished order is not kept": {
    breaks: "acknowledged orders",
    plant: () =>
      replaced(
        Rows.prototype,
        "put",
        (real) =>
          function (this: Rows, key, value) {
            if (!key.startsWith("past:")) real.call(this, key, value);
          },
      ),
  },
  "a press counts twice": {
    breaks: "counts of the pace",
    plant: () =>
      replaced(
        StallState.prototype,
        "setPace",
        (real) =>
          function (this: StallState, pace) {
            real.call(this, pace);
            for (const [key, bucket] of [...this.buckets.keys()].map(
              (k) => [k, this.buckets.get(k)] as const,
            ))
              if (bucket !== undefined) this.buckets.set(key, { ...bucket, pressed: bucket.pressed + 1 });
          },
      ),
  },
};
