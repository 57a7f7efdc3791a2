import { describe, expect, it } from "vitest";
import { seededRandom } from "../../src/maths/random.ts";
import { jobId } from "../../src/model/basics/ids.ts";
import type { StallState } from "../../src/stall/state/state.ts";
import { ids } from "../ids.ts";
import { garments } from "./fair-day.ts";
import { carryOut, customerOf, OPENS, openStall, PRESSES, simulatedMenu } from "./stall.ts";

/** The garments in line now, by turn, without re-presses: garments behind one of those in time are passed over. */
const inLine = (state: StallState): readonly string[] =>
  [...state.orderIndex.waiting.flat].filter(({ turn }) => turn >= 0).map(({ number, n }) => `${number}-${n}`);

/** Works off a mixed backlog with random taps, counting by hand who is passed over by whom. */
function tapped(seed: number, rules: Readonly<Record<string, unknown>>) {
  const random = seededRandom(seed);
  const menu = simulatedMenu({ presses: 3, garmentSeconds: 75, fahrenheit: [365, 310], rules });
  const state = openStall(menu, OPENS + 36_000_000);
  const passedOver = new Map<string, number>();
  const order: string[] = [];
  let now = OPENS;
  let placed = 0;
  const run = (command: Parameters<typeof carryOut>[1]): void => {
    const before = inLine(state);
    // What is reserved for the press itself it could have taken as well.
    const own = command.type === "pull" ? [...(state.orderIndex.reserved.get(command.press) ?? [])] : [];
    const { events } = carryOut(state, command, now);
    for (const event of events) {
      if (event.type !== "pulled" && event.type !== "reserved") continue;
      const job = `${event.number}-${event.n}`;
      if (event.type === "pulled") order.push(job);
      const placed = state.order(event.number)?.jobs[event.n - 1];
      const turn = placed !== undefined && "turn" in placed ? placed.turn : 0;
      for (const kept of event.type === "pulled" ? own : []) {
        const id = `${kept.number}-${kept.n}`;
        if (kept.turn >= 0 && kept.turn < turn) passedOver.set(id, (passedOver.get(id) ?? 0) + 1);
      }
      const at = before.indexOf(job);
      if (at < 0) continue;
      // One command takes several only when it reserves; those it took before are not in line any more.
      const gone = new Set(
        events
          .slice(0, events.indexOf(event))
          .flatMap((e) => (e.type === "pulled" || e.type === "reserved" ? [`${e.number}-${e.n}`] : [])),
      );
      for (const other of before.slice(0, at))
        if (!gone.has(other)) passedOver.set(other, (passedOver.get(other) ?? 0) + 1);
    }
  };
  while (placed < 60 || state.orderIndex.underWay.length > 0) {
    now += 1000 * random.below(40);
    const press = ids.press(random.pick(PRESSES.slice(0, 3)));
    const down = state.press(press).downSince !== null;
    const on = state.orderIndex.onPress.get(press);
    if (placed < 60 && random.chance(0.5)) {
      const lines = [garments(random, [0.6, 0.3, 0.1], `offer-${random.below(2)}`)];
      const customer = customerOf(placed);
      run({ type: "place", customer, takenBy: "counter", lines, asks: [], chance: random.next() });
      placed += 1;
    } else if (down) run({ type: "press-up", press });
    else if (random.chance(0.03)) run({ type: "press-down", press });
    else if (random.chance(0.05)) run({ type: "set-reserve", press, on: random.chance(0.5) });
    else if (random.chance(0.3)) run({ type: "fill-reserve", press });
    else if (on === undefined) run({ type: "pull", press });
    else {
      const job = jobId(on.number, on.n);
      const kind = random.pick([
        "spoiled",
        "returned",
        ...Array.from({ length: 10 }, () => "pressed" as const),
      ] as const);
      run(kind === "spoiled" ? { type: kind, job, lost: "both", reason: "crooked" } : { type: kind, job });
    }
  }
  return { passedOver, order, state };
}

describe("pulls by the rule", () => {
  it("let no garment be passed over more than three times, however the taps fall", () => {
    let most = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const { passedOver } = tapped(seed, {});
      most = Math.max(most, ...passedOver.values());
    }
    // The limit is reached, so the look-ahead is at work, and never passed.
    expect(most).toBe(3);
  });
  it("are first come, first served if nobody may be passed over", () => {
    for (let seed = 1; seed <= 5; seed++) expect(tapped(seed, { overtakenMost: 0 }).passedOver.size).toBe(0);
  });
  it("press every garment once in the end", () => {
    const { state } = tapped(77, {});
    const jobs = [...state.orders.values()].flatMap((order) => order.jobs);
    expect(jobs.length).toBeGreaterThan(60);
    expect(new Set(jobs.map(({ stage }) => stage))).toEqual(new Set(["pressed"]));
  });
});
