import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Piece,
  type PitchPlan,
  PitchPlan as PitchPlanSchema,
  PitchRequest,
} from "../../src/model/planning/pitch.ts";
import { distanceBetween, inside, overlaps } from "../../src/planning/pitch/floor.ts";
import { planPitch } from "../../src/planning/pitch/pitch.ts";

const ft = (value: number) => ({ value, unit: "ft" as const });
const inch = (value: number) => ({ value, unit: "in" as const });
const cm = (value: number) => ({ value, unit: "cm" as const });

const counter: Piece = { piece: "counter", kind: "counter", width: ft(6), depth: inch(30) };
const press = (piece: string, more: Partial<Piece> = {}): Piece => ({
  piece,
  kind: "press",
  width: inch(24),
  depth: inch(24),
  swing: { side: "behind", reach: inch(6) },
  ...more,
});
const rack: Piece = { piece: "rack", kind: "rack", width: ft(4), depth: inch(18) };

const usual: PitchRequest = {
  pitch: { width: ft(10), depth: ft(10) },
  pieces: [counter, press("press-a"), press("press-b"), rack],
  queue: { people: 6, where: "outside" },
};

function planned(request: PitchRequest): PitchPlan {
  const answer = planPitch(PitchRequest.parse(request));
  if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
  return PitchPlanSchema.parse(answer.value);
}

/** Every rule of the floor, looked at from outside the search. */
function expectSound(plan: PitchPlan, borders: PitchRequest["borders"] = {}): void {
  const front = plan.queue.inside ? plan.queue.area.depth : 0;
  const crew = { x: 0, y: front, width: plan.widthMillimetres, depth: plan.depthMillimetres - front };
  const far = 1e5;
  const publicAreas = [{ x: -far, y: -far, width: 3 * far, depth: far + front }];
  if (borders.left === "public")
    publicAreas.push({ x: -far, y: 0, width: far, depth: plan.depthMillimetres });
  if (borders.right === "public")
    publicAreas.push({ x: plan.widthMillimetres, y: 0, width: far, depth: plan.depthMillimetres });
  plan.placed.forEach((one, index) => {
    expect(inside(one.swept, crew)).toBe(true);
    expect(inside(one.footprint, one.swept)).toBe(true);
    if (one.standing !== null) expect(inside(one.standing, crew)).toBe(true);
    for (const other of plan.placed.slice(index + 1)) {
      expect(overlaps(one.kept, other.swept) || overlaps(one.swept, other.kept)).toBe(false);
      if (one.standing !== null) expect(overlaps(one.standing, other.swept)).toBe(false);
      if (other.standing !== null) expect(overlaps(other.standing, one.swept)).toBe(false);
    }
    if (one.kind !== "press") return;
    const nearest = Math.min(...publicAreas.map((area) => distanceBetween(one.swept, area)));
    expect(nearest).toBeGreaterThanOrEqual(plan.hotDistanceMillimetres - 1e-6);
    expect(one.publicMillimetres).toBeCloseTo(nearest, 6);
  });
  // The way: a square of its width, moved along every straight of it, touches no piece.
  const half = plan.exit.widthMillimetres / 2;
  plan.exit.way.forEach((from, at) => {
    const to = plan.exit.way[at + 1] ?? from;
    const carried = {
      x: Math.min(from.x, to.x) - half,
      y: Math.min(from.y, to.y) - half,
      width: Math.abs(from.x - to.x) + 2 * half,
      depth: Math.abs(from.y - to.y) + 2 * half,
    };
    for (const { swept } of plan.placed) expect(overlaps(carried, swept)).toBe(false);
    expect(from.x === to.x || from.y === to.y).toBe(true);
  });
  if (plan.fits) expect(plan.exit.way.length).toBeGreaterThan(0);
}

describe("laying out a pitch", () => {
  it("fits a counter, two presses and a rack on ten by ten feet, by every rule", () => {
    const plan = planned(usual);
    expect(plan.fits).toBe(true);
    expect(plan.placed).toHaveLength(4);
    expectSound(plan);
    const counterPlaced = plan.placed.find(({ kind }) => kind === "counter");
    expect(counterPlaced).toMatchObject({ facing: "back", footprint: { y: 0 } });
  });

  it("keeps every rule on any pitch, whether all fits or not", () => {
    const anyPiece = fc.record({
      kind: fc.constantFrom("press" as const, "table" as const, "rack" as const, "other" as const),
      width: fc.integer({ min: 30, max: 150 }).map(cm),
      depth: fc.integer({ min: 30, max: 90 }).map(cm),
      swing: fc.record({
        side: fc.constantFrom("behind" as const, "left" as const, "right" as const),
        reach: fc.integer({ min: 0, max: 60 }).map(cm),
      }),
    });
    const borders = fc.record({
      left: fc.constantFrom("public" as const, "closed" as const, "crew" as const),
    });
    fc.assert(
      fc.property(
        fc.array(anyPiece, { minLength: 1, maxLength: 5 }),
        fc.integer({ min: 250, max: 600 }),
        fc.integer({ min: 250, max: 600 }),
        borders,
        fc.boolean(),
        (pieces, width, depth, sides, inside_) => {
          const plan = planned({
            ...usual,
            pitch: { width: cm(width), depth: cm(depth) },
            borders: sides,
            queue: { people: 4, where: inside_ ? "inside" : "outside" },
            pieces: [
              { ...counter, width: cm(150) },
              ...pieces.map((piece, index) => ({ ...piece, piece: `piece ${index}` })),
            ],
          });
          expectSound(plan, sides);
          expect(plan.placed.length + plan.unplaced.length).toBe(pieces.length + 1);
          expect(plan.fits).toBe(plan.unplaced.length === 0);
        },
      ),
      { numRuns: 12 },
    );
  });

  it("finds a layout that was made to fit", () => {
    // Four metres square: two presses against the back with a way between them.
    const plan = planned({
      ...usual,
      pitch: { width: cm(400), depth: cm(400) },
      pieces: [
        { ...counter, width: cm(400), depth: cm(60) },
        press("left", { width: cm(100), depth: cm(60), swing: { side: "behind", reach: cm(30) } }),
        press("right", { width: cm(100), depth: cm(60), swing: { side: "behind", reach: cm(30) } }),
      ],
    });
    expect(plan.fits).toBe(true);
    expectSound(plan);
  });

  it("keeps hot parts from a public side too", () => {
    const borders = { left: "public" as const };
    const plan = planned({ ...usual, borders, pitch: { width: ft(14), depth: ft(10) } });
    expect(plan.fits).toBe(true);
    expectSound(plan, borders);
  });

  it("takes the queue off the pitch's own floor when it stands inside", () => {
    const plan = planned({
      ...usual,
      pitch: { width: ft(10), depth: ft(16) },
      queue: { people: 6, where: "inside" },
    });
    expect(plan.fits).toBe(true);
    expect(plan.queue).toMatchObject({ inside: true, area: { depth: 1500 } });
    expectSound(plan);
  });
});

describe("what does not fit, and what would", () => {
  it("says why a press has no place, and offers only changes that work", () => {
    const request: PitchRequest = {
      ...usual,
      pitch: { width: ft(10), depth: ft(10) },
      queue: { people: 6, where: "inside" },
    };
    const plan = planned(request);
    expect(plan.fits).toBe(false);
    expect(plan.unplaced.find(({ piece }) => piece === "press-a")?.why).toContain("nearer to the public");
    expect(plan.would.some((change) => change.startsWith("Let the queue stand on the aisle"))).toBe(true);
    expect(planned({ ...request, queue: { people: 6, where: "outside" } }).fits).toBe(true);
    const deeper = plan.would.find((change) => change.endsWith("deep."));
    const feet = Number(/([\d.]+) ft deep/.exec(deeper ?? "")?.[1]);
    expect(planned({ ...request, pitch: { width: ft(10), depth: ft(feet) } }).fits).toBe(true);
  });

  it("names what to leave at home", () => {
    const request: PitchRequest = {
      ...usual,
      pitch: { width: ft(8), depth: ft(8) },
      pieces: [{ ...counter, width: ft(5) }, press("press-a"), press("press-b"), press("press-c")],
    };
    const plan = planned(request);
    expect(plan.fits).toBe(false);
    for (const change of plan.would) {
      const left = /^Leave (.+) at home\.$/.exec(change)?.[1];
      if (left === undefined) continue;
      const fewer = request.pieces.filter(({ piece }) => piece !== left);
      expect(planned({ ...request, pieces: fewer }).fits).toBe(true);
    }
  });
});

describe("the hot side", () => {
  const near = { distance: cm(60) };

  it("lets the distance be shortened only with a written reason, which is printed", () => {
    expect(faultsOf({ ...usual, hotSide: near })).toEqual(["#/hotSide/reason"]);
    expect(faultsOf({ ...usual, hotSide: { ...near, reason: "ok" } })).toEqual(["#/hotSide/reason"]);
    const reason = "A fixed clear screen stands between counter and presses.";
    const plan = planned({ ...usual, hotSide: { ...near, reason } });
    expect(plan.hotRule.overriddenBecause).toBe(reason);
    expect(plan.hotDistanceMillimetres).toBe(600);
    expect(plan.cautions.join()).toContain(reason);
    expect(
      planned({ ...usual, pitch: { width: ft(12), depth: ft(12) }, hotSide: { distance: cm(140) } }).hotRule
        .overriddenBecause,
    ).toBeNull();
  });

  // Arm's reach, IEC 60364-4-41 annex B: 1.25 m (from memory).
  it("takes arm's reach when nothing is said", () => {
    expect(planned(usual).hotDistanceMillimetres).toBe(1250);
    expect(planned(usual).hotRule.source).toContain("IEC 60364-4-41");
  });
});

describe("vehicle loads", () => {
  const kg = (value: number) => ({ value, unit: "kg" as const });
  const carry = (payload: number, trips: number, cargo: [string, number, number][]) =>
    planned({
      ...usual,
      vehicles: [{ vehicle: "van", payload: kg(payload), trips }],
      cargo: cargo.map(([item, weight, count]) => ({ item, weight: kg(weight), count })),
    }).vehicles;

  it("uses the fewest loads, none over its payload", () => {
    // 60 + 40, 60 + 40, 50 + 50: three loads of 100 kg, where lifting in by size alone needs care.
    const loads = carry(100, 5, [
      ["press", 60, 2],
      ["rack", 40, 2],
      ["carton", 50, 2],
    ]);
    expect(loads?.loads).toHaveLength(3);
    for (const load of loads?.loads ?? []) expect(load.kilograms).toBeLessThanOrEqual(load.payloadKilograms);
    expect(loads?.left).toEqual([]);
  });

  it("counts pounds as well", () => {
    const loads = carry(500, 1, [["press", 45.359237, 1]]);
    expect(loads?.loads[0]?.pounds).toBeCloseTo(100, 9);
  });

  it("says what has to stay", () => {
    const loads = carry(100, 1, [
      ["press", 80, 2],
      ["oven", 300, 1],
    ]);
    expect(loads?.left).toEqual(["oven", "press"]);
    expect(loads?.says).toContain("would have to stay");
  });
});

function faultsOf(request: PitchRequest): string[] {
  const answer = planPitch(PitchRequest.parse(request));
  if (answer.ok) throw new Error("no fault was found");
  return answer.refusal.map(({ pointer }) => pointer);
}

describe("bad input", () => {
  it("names every fault at once", () => {
    expect(
      faultsOf({
        pitch: { width: ft(10), depth: ft(10) },
        pieces: [
          { ...counter, width: ft(11) },
          press("press-a", { width: inch(-4) }),
          press("press-a", { swing: { side: "left", reach: ft(-1) } }),
        ],
        queue: { people: -2, where: "inside" },
        exit: { side: "left", width: cm(20) },
        vehicles: [{ vehicle: "van", payload: { value: 0, unit: "kg" } }],
        cargo: [{ item: "box", weight: { value: -3, unit: "kg" } }],
      }),
    ).toEqual([
      "#/pieces/2/piece",
      "#/pieces/0",
      "#/pieces/1/width/value",
      "#/pieces/2/swing/reach/value",
      "#/pieces",
      "#/queue/people",
      "#/exit/width/value",
      "#/exit/side",
      "#/vehicles/0/payload/value",
      "#/cargo/0/weight/value",
    ]);
  });
});
