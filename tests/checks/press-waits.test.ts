import { describe, expect, it } from "vitest";
import { type Random, seededRandom } from "../../src/maths/random.ts";
import { manyServers, oneServer } from "../../src/maths/waiting.ts";
import type { Handling, PressAsk, PressesRequest } from "../../src/model/planning/presses.ts";
import { planPresses } from "../../src/planning/presses/presses.ts";

/**
 * The simulated day, stripped to a plain waiting line (one step of hands, nothing else), against published
 * answers. Days start empty, so they are long; the tolerance is four standard errors over the days.
 */
function simulatedStay(
  ratePerSecond: number,
  serviceSeconds: number,
  servers: number,
  handVariation: number,
): { stay: number; tolerance: number; use: number } {
  const random = seededRandom(2027);
  const closesAtSeconds = 300 / ratePerSecond;
  const days = Array.from({ length: 120 }, () => poissonDay(random, ratePerSecond, closesAtSeconds));
  const plain: Handling = {
    settings: "plain",
    platen: "flat",
    temperature: { value: 180, unit: "C" },
    loadSeconds: serviceSeconds,
    prePressSeconds: 0,
    placeSeconds: 0,
    dwellSeconds: [0],
    peelSeconds: 0,
    unloadSeconds: 0,
    foldSeconds: 0,
  };
  const stays: number[] = [];
  let use = 0;
  days.forEach((asks, seed) => {
    const request: PressesRequest = {
      seed,
      closesAtSeconds,
      scenarios: [asks],
      handling: [plain],
      handVariation,
      presses: [{ platen: "flat", most: servers, now: servers }],
      people: { most: servers, now: servers },
    };
    const answer = planPresses(request);
    if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
    const row = answer.value.combinations[answer.value.looked]?.platens[0];
    stays.push(row?.meanWaitSeconds ?? Number.NaN);
    use += (row?.use ?? 0) / days.length;
  });
  const mean = stays.reduce((sum, each) => sum + each, 0) / stays.length;
  const variance = stays.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (stays.length - 1);
  return { stay: mean, tolerance: 4 * Math.sqrt(variance / stays.length), use };
}

function poissonDay(random: Random, rate: number, until: number): PressAsk[] {
  const asks: PressAsk[] = [];
  for (let at = 0; ; ) {
    at -= Math.log(1 - random.next()) / rate;
    if (at > until) return asks;
    asks.push({ atSeconds: at, platen: "flat", garments: 1 });
  }
}

describe("the simulated line", () => {
  // Hillier & Lieberman, county hospital (from memory): 2 an hour, 20 minutes, two doctors: 3/8 h.
  it("keeps M/M/2: 3/8 h from arriving to leaving", () => {
    const { stay, tolerance, use } = simulatedStay(2 / 3600, 1200, 2, 1);
    expect(tolerance).toBeLessThan(0.08 * 1350);
    expect(Math.abs(stay - 1350)).toBeLessThan(tolerance);
    expect(use).toBeCloseTo(1 / 3, 1);
  });

  // Hillier & Lieberman ch. 17: 0.2 arrivals, mean 4: waits 10 with deviation 2, 8 with none.
  it.each([
    [2, 10],
    [0, 8],
  ])("keeps M/G/1 with deviation %d: a wait of %d before service", (deviation, wait) => {
    const scale = 60;
    const { stay, tolerance } = simulatedStay(0.2 / scale, 4 * scale, 1, deviation / 4);
    const published = (wait + 4) * scale;
    expect(oneServer(0.2, 4, deviation)?.meanStay).toBeCloseTo(wait + 4, 9);
    expect(tolerance).toBeLessThan(0.15 * published);
    expect(Math.abs(stay - published)).toBeLessThan(tolerance);
  });

  // Gross & Harris, eye clinic (from memory): 6 an hour, 20 minutes, three: 28.9 minutes.
  it("keeps M/M/3: 28.9 minutes", () => {
    const { stay, tolerance } = simulatedStay(6 / 3600, 1200, 3, 1);
    expect((manyServers(6, 1 / 3, 3)?.meanStay ?? 0) * 60).toBeCloseTo(28.9, 1);
    expect(Math.abs(stay / 60 - 28.889)).toBeLessThan(tolerance / 60);
  });
});
