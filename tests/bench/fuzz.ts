/** A million random and mutated bodies over every route and texts over the conversation, in one process. */
import { fuzz, HANG_MILLISECONDS } from "../hostile/fuzz.ts";
import { bundled } from "../hostile/in-process.ts";
import type { Bench, Figure } from "./figure.ts";

const BODIES = Number(process.env["FUZZ_BODIES"] ?? 1_000_000);
const A_SEED = 50_000;

async function measure(): Promise<readonly Figure[]> {
  const start = await bundled();
  const seconds = performance.now() / 1000;
  const totals = { sent: 0, faults: 0, hangs: 0, halfWritten: 0, slowest: 0, taken: 0 };
  for (let seed = 1; totals.sent < BODIES; seed++) {
    const bodies = Math.min(A_SEED, BODIES - totals.sent);
    const fuzzed = await fuzz(start, bodies, seed);
    for (const fault of [...fuzzed.faults, ...fuzzed.hangs, ...fuzzed.halfWritten].slice(0, 20))
      console.error(fault);
    totals.sent += fuzzed.sent;
    totals.faults += fuzzed.faults.length;
    totals.hangs += fuzzed.hangs.length;
    totals.halfWritten += fuzzed.halfWritten.length;
    totals.slowest = Math.max(totals.slowest, fuzzed.slowestMilliseconds);
    totals.taken += fuzzed.byStatus.get(200) ?? 0;
  }
  const figure = (name: string, value: number, unit: string, goal: Figure["goal"] = null): Figure => ({
    bench: "fuzz",
    name,
    figure: value,
    unit,
    goal,
  });
  return [
    figure("bodies and texts sent", totals.sent, "requests", { atLeast: BODIES }),
    figure("answered with a fault of ours", totals.faults, "requests", { atMost: 0 }),
    figure(`over ${HANG_MILLISECONDS} ms of processor time, each time sent`, totals.hangs, "requests", {
      atMost: 0,
    }),
    figure("stalls half-written", totals.halfWritten, "stalls", { atMost: 0 }),
    figure("slowest request", totals.slowest, "ms"),
    figure("taken (200)", totals.taken, "requests"),
    figure("requests a second", totals.sent / (performance.now() / 1000 - seconds), "/s"),
  ];
}

export const bench: Bench = { name: "fuzz", run: measure };
