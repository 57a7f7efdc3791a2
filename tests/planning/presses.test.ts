import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../../src/maths/random.ts";
import {
  type Handling,
  type PressAsk,
  PressesPlan,
  PressesRequest,
} from "../../src/model/planning/presses.ts";
import { handSeconds, pressSeconds } from "../../src/planning/presses/press-attention.ts";
import { drawDay, stepsOf } from "../../src/planning/presses/press-day.ts";
import { type PressCrew, pressDay } from "../../src/planning/presses/press-line.ts";
import { planPresses } from "../../src/planning/presses/presses.ts";

const hotPeel: Handling = {
  settings: "hot-peel",
  platen: "flat",
  temperature: { value: 185, unit: "C" },
  loadSeconds: 12,
  prePressSeconds: 4,
  placeSeconds: 8,
  dwellSeconds: [5],
  peelSeconds: 3,
  unloadSeconds: 4,
  foldSeconds: 8,
};
const film: Handling = {
  ...hotPeel,
  settings: "film",
  temperature: { value: 155, unit: "C" },
  dwellSeconds: [12, 7],
};
const cap: Handling = { ...hotPeel, settings: "cap", platen: "cap" };
const ask = (atSeconds: number, more: Partial<PressAsk> = {}): PressAsk => ({
  atSeconds,
  platen: "flat",
  garments: 1,
  ...more,
});

const steady = { handVariation: 0, spoilage: 0, patience: null };
const onePress: PressCrew = {
  presses: [0],
  people: 1,
  opensItself: false,
  heatingCelsiusPerSecond: 0.5,
  coolingCelsiusPerSecond: 0.25,
  holdBackSeconds: 600,
};

function live(
  asks: readonly PressAsk[],
  crew: Partial<PressCrew> = {},
  handling: readonly Handling[] = [hotPeel],
) {
  const day = drawDay(asks, handling, steady, 1);
  const table = handling.map((row) => stepsOf(row, row.temperature.value));
  return pressDay(day, table, { ...onePress, ...crew });
}

describe("a day at the press", () => {
  it("takes one garment through all its steps", () => {
    expect([...live([ask(100)]).wait]).toEqual([12 + 4 + 8 + 5 + 3 + 4 + 8]);
    expect([...live([ask(0)], {}, [{ ...film }]).wait]).toEqual([12 + 4 + 8 + 12 + 3 + 7 + 4 + 8]);
  });

  it("has one person fold before loading when the dwell is too short for it", () => {
    // 24 load, 5 dwell, 7 peel and unload, 8 fold: the second garment starts at 44.
    expect([...live([ask(0), ask(0)]).wait]).toEqual([44, 88]);
  });

  it("folds during the dwell if it fits", () => {
    const slow = { ...hotPeel, dwellSeconds: [20] };
    // Loaded at 24, dwell to 44, off at 51; loaded again at 75, folded 75 to 83; dwell to 95, off at 102, folded at 110.
    expect([...live([ask(0), ask(0)], {}, [slow]).wait]).toEqual([83, 110]);
  });

  it("shares the work of two people at one press", () => {
    // The second folds (36 to 44) while the first loads (36 to 60).
    expect([...live([ask(0), ask(0)], { people: 2 }).wait]).toEqual([44, 80]);
  });

  it("waits for the platen to change its heat", () => {
    // 30 °C down at 0.25 °C a second is 120 s, from the moment the first garment is off.
    const [, second] = live([ask(0), ask(0, { settings: "film" })], {}, [hotPeel, film]).handedAt;
    expect(second).toBe(36 + 120 + 24 + 12 + 3 + 7 + 4 + 8);
  });

  it("takes jobs of its own settings first, but not for longer than a job may be held back", () => {
    const asks = [ask(0), ask(1, { settings: "film" }), ask(2), ask(3), ask(4)];
    const patient = live(asks, { holdBackSeconds: 600 }, [hotPeel, film]).handedAt;
    expect(patient[1]).toBe(Math.max(...patient));
    const strict = live(asks, { holdBackSeconds: 0 }, [hotPeel, film]).handedAt;
    expect(strict[1]).toBeLessThan(strict[2] ?? 0);
  });

  it("serves the earliest customer first, whichever platen", () => {
    const { handedAt } = live([ask(0), ask(1, { platen: "cap" }), ask(2)], { presses: [0, 1] }, [
      hotPeel,
      cap,
    ]);
    expect(handedAt[1]).toBeLessThan(handedAt[2] ?? 0);
  });

  const anyDay = fc.record({
    gaps: fc.array(fc.integer({ min: 0, max: 80 }), { minLength: 1, maxLength: 40 }),
    presses: fc.integer({ min: 1, max: 4 }),
    people: fc.integer({ min: 1, max: 4 }),
    dwell: fc.integer({ min: 0, max: 60 }),
    second: fc.integer({ min: 0, max: 60 }),
    opensItself: fc.boolean(),
  });

  it("never leaves a closed press, loses no garment and does no more than it can", () => {
    fc.assert(
      fc.property(anyDay, ({ gaps, presses, people, dwell, second, opensItself }) => {
        let at = 0;
        const asks = gaps.map((gap) => {
          at += gap;
          return ask(at);
        });
        const handling = { ...hotPeel, dwellSeconds: second === 0 ? [dwell] : [dwell, second] };
        const steps = stepsOf(handling, 185);
        const crew = { presses: new Array<number>(presses).fill(0), people, opensItself };
        const lived = live(asks, crew, [handling]);
        expect([...lived.wait].every((wait) => wait >= pressSeconds(steps) + steps.fold)).toBe(true);
        const work = asks.length * pressSeconds(steps);
        // Opened the moment its dwell is over, a press is held no longer than its steps take.
        if (opensItself) expect(lived.held[0]).toBeGreaterThanOrEqual(work);
        else expect(lived.held[0]).toBe(work);
        expect(lived.hands).toBe(asks.length * handSeconds(steps, true));
        expect(lived.lastAt).toBeGreaterThanOrEqual(work / presses);
        expect(lived.lastAt).toBeGreaterThanOrEqual((asks.length * handSeconds(steps, true)) / people);
      }),
      { numRuns: 300 },
    );
  });

  it("spoils the share it is told, and presses those garments again", () => {
    const random = seededRandom(4);
    const asks = Array.from({ length: 4000 }, () => ask(random.next() * 1e6));
    const day = drawDay(asks, [hotPeel], { ...steady, spoilage: 0.2 }, 9);
    const lived = pressDay(day, [stepsOf(hotPeel, 185)], { ...onePress, presses: [0, 0], people: 2 });
    // Spoils per garment are geometric: mean p / (1 - p), variance p / (1 - p)^2.
    const standardError = Math.sqrt(0.2 / 0.8 ** 2 / 4000);
    expect(Math.abs((lived.spoiled[0] ?? 0) / 4000 - 0.25)).toBeLessThan(4 * standardError);
    expect(lived.held[0]).toBeCloseTo(
      (4000 + (lived.spoiled[0] ?? 0)) * pressSeconds(stepsOf(hotPeel, 185)),
      3,
    );
    expect([...lived.handedAt].every((at) => at > 0)).toBe(true);
  });

  it("lets a customer walk who is told a wait beyond their patience", () => {
    const asks = Array.from({ length: 10 }, () => ask(0, { patienceSeconds: 200 }));
    const { wait } = live(asks);
    const walked = [...wait].filter(Number.isNaN).length;
    expect(walked).toBeGreaterThan(0);
    expect(walked).toBeLessThan(10);
    // Those who stay wait about as long as quoted, and nobody quoted more than 200 s stays.
    expect(Math.max(...[...wait].filter((each) => each >= 0))).toBeLessThanOrEqual(200);
  });
});

function crowd(seed: number, perHour: number, hours: number): PressAsk[] {
  const random = seededRandom(seed);
  const asks: PressAsk[] = [];
  for (let at = 0; ; ) {
    at -= (Math.log(1 - random.next()) * 3600) / perHour;
    if (at > hours * 3600) return asks;
    const platen = random.chance(0.2) ? "cap" : "flat";
    const noon = Math.abs(at / 3600 - hours / 2) < 1;
    if (noon || random.chance(0.6)) asks.push(ask(at, { platen, garments: random.chance(0.25) ? 2 : 1 }));
  }
}

const usual: PressesRequest = {
  closesAtSeconds: 6 * 3600,
  scenarios: Array.from({ length: 12 }, (_, seed) => crowd(seed + 1, 80, 6)),
  handling: [hotPeel, cap],
  spoilage: 0.02,
  patience: { medianSeconds: 1200, variation: 0.6 },
  presses: [
    { platen: "flat", most: 3, now: 1, cost: 30, power: "$40", earns: "14.00", spoils: 6 },
    { platen: "cap", most: 2, now: 1, cost: 20, power: 40, earns: 12, spoils: 7 },
  ],
  people: { most: 3, now: 2, hourlyWage: 18 },
};

function planned(request: PressesRequest): PressesPlan {
  const answer = planPresses(PressesRequest.parse(request));
  if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
  return PressesPlan.parse(answer.value);
}

describe("how many presses and hands", () => {
  const plan = planned(usual);
  const find = (flat: number, caps: number, people: number) =>
    plan.combinations.find(
      (each) =>
        each.people === people &&
        each.presses.every(({ platen, presses }) => presses === (platen === "flat" ? flat : caps)),
    );

  it("tries every number of each", () => {
    expect(plan.combinations).toHaveLength(3 * 2 * 3);
    expect(plan.scenariosUsed).toBe(12);
    expect(plan.combinations[plan.looked]).toEqual(find(1, 1, 2));
    expect(Math.max(...plan.combinations.map(({ earns }) => earns))).toBe(
      plan.combinations[plan.best]?.earns,
    );
  });

  it("values one more as the difference on the same days", () => {
    const now = find(1, 1, 2)?.earns ?? 0;
    const worth = (more: string) => plan.oneMore.find((each) => each.more === more)?.earns ?? Number.NaN;
    expect(Math.abs(worth("flat press") - ((find(2, 1, 2)?.earns ?? 0) - now))).toBeLessThanOrEqual(1);
    expect(Math.abs(worth("cap press") - ((find(1, 2, 2)?.earns ?? 0) - now))).toBeLessThanOrEqual(1);
    expect(Math.abs(worth("person") - ((find(1, 1, 3)?.earns ?? 0) - now))).toBeLessThanOrEqual(1);
  });

  it("shortens the wait and keeps customers with one more press in a crowd", () => {
    const one = find(1, 1, 3)?.platens.find(({ platen }) => platen === "flat");
    const two = find(2, 1, 3)?.platens.find(({ platen }) => platen === "flat");
    expect(two?.medianWaitSeconds).toBeLessThan(one?.medianWaitSeconds ?? 0);
    expect(two?.walked).toBeLessThan(one?.walked ?? 0);
    expect(one?.garmentsPerHour).toBeLessThanOrEqual((one?.capacityPerHour ?? 0) * 1.05);
  });

  it("accounts for every garment by hour", () => {
    const row = find(1, 1, 2)?.platens.find(({ platen }) => platen === "flat");
    const hours = plan.hours.filter(({ platen }) => platen === "flat");
    const sum = (of: "asked" | "handed" | "walked") => hours.reduce((total, hour) => total + hour[of], 0);
    expect(sum("asked")).toBeCloseTo(row?.asked ?? 0, 9);
    expect(sum("handed")).toBeCloseTo(row?.handed ?? 0, 9);
    expect(sum("walked")).toBeCloseTo(row?.walked ?? 0, 9);
  });

  it("finds the pinch at noon, at the flat press", () => {
    expect(plan.pinch).toMatchObject({ platen: "flat" });
    expect([2 * 3600, 3 * 3600]).toContain(plan.pinch?.fromSeconds);
  });

  it("gives the same plan for the same seed, another for another", () => {
    expect(planned(usual)).toEqual(plan);
    expect(planned({ ...usual, seed: 99 }).combinations).not.toEqual(plan.combinations);
  });

  it("earns what the sums say on a day without chance", () => {
    const simple = planned({
      closesAtSeconds: 7200,
      scenarios: [[ask(0), ask(1000, { garments: 2 })]],
      handling: [hotPeel],
      handVariation: 0,
      presses: [{ platen: "flat", most: 1, cost: 5, power: 2, earns: 10 }],
      people: { most: 2, hourlyWage: 9 },
    });
    // Three garments at 10.00, a press at 7.00, two hours at 9.00 a person.
    expect(simple.combinations.map(({ earns }) => earns)).toEqual([3000 - 700 - 1800, 3000 - 700 - 3600]);
    expect(simple.best).toBe(0);
    expect(simple.combinations[0]?.lateMedianSeconds).toBe(0);
  });

  it("says how long after closing the last garment comes off, and pays for it", () => {
    const late = planned({
      closesAtSeconds: 3600,
      scenarios: [[ask(3600, { garments: 10 })]],
      handling: [hotPeel],
      handVariation: 0,
      presses: [{ platen: "flat", most: 1 }],
      people: { most: 1, hourlyWage: 36 },
    });
    expect(late.combinations[0]).toMatchObject({ lateMedianSeconds: 440, earns: -Math.round(4040) });
  });

  it("uses fewer scenarios, and says so, when all would be too much work", () => {
    const [day = []] = usual.scenarios;
    const many = planned({ ...usual, scenarios: new Array<PressAsk[]>(100).fill(day) });
    expect(many.scenariosGiven).toBe(100);
    expect(many.scenariosUsed).toBeLessThan(100);
    expect(many.scenariosUsed).toBeGreaterThanOrEqual(10);
  });
});

describe("bad input", () => {
  const faultsOf = (request: PressesRequest): string[] => {
    const answer = planPresses(request);
    if (answer.ok) throw new Error("no fault was found");
    return answer.refusal.map(({ pointer }) => pointer);
  };

  it("names every fault at once", () => {
    expect(
      faultsOf({
        ...usual,
        scenarios: [[ask(-1), ask(99_999), ask(5, { garments: 0 }), ask(6, { settings: "gold" })]],
        handling: [{ ...hotPeel, loadSeconds: -4 }, { ...hotPeel, dwellSeconds: [] }, cap],
        spoilage: 0.9,
        presses: [{ platen: "flat", most: 0, cost: "ten" }],
        people: { most: 40 },
      }),
    ).toEqual([
      "#/handling/0/loadSeconds",
      "#/handling/1/dwellSeconds",
      "#/handling/1/settings",
      "#/presses/0/most",
      "#/presses/0/cost",
      "#/people/most",
      "#/spoilage",
      "#/scenarios/0/0/atSeconds",
      "#/scenarios/0/1/atSeconds",
      "#/scenarios/0/2/garments",
      "#/scenarios/0/3/settings",
    ]);
  });

  it("asks for a press for every platen asked for", () => {
    const faults = faultsOf({
      ...usual,
      presses: usual.presses.slice(0, 1),
      scenarios: [[ask(0, { platen: "cap" })]],
    });
    expect(faults).toEqual(["#/scenarios/0/0/platen"]);
  });
});
