import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  emptyProbability,
  erlangB,
  erlangC,
  manyServers,
  oneServer,
  uneven,
  waitQuantile,
} from "../../src/maths/waiting.ts";

const loads = {
  servers: fc.integer({ min: 1, max: 30 }),
  use: fc.double({ min: 0.01, max: 0.98, noNaN: true }),
};

describe("waiting-line formulas", () => {
  it("agree with the sums they are rewritings of", () => {
    fc.assert(
      fc.property(fc.record(loads), ({ servers, use }) => {
        const offered = use * servers;
        const terms = [1];
        for (let count = 1; count <= servers; count++) terms.push(((terms.at(-1) ?? 0) * offered) / count);
        const last = terms.at(-1) ?? 0;
        const below = terms.slice(0, -1).reduce((sum, term) => sum + term, 0);
        expect(erlangB(offered, servers)).toBeCloseTo(last / (below + last), 10);
        expect(erlangC(offered, servers)).toBeCloseTo(last / (1 - use) / (below + last / (1 - use)), 10);
        expect(emptyProbability(offered, servers)).toBeCloseTo(1 / (below + last / (1 - use)), 10);
      }),
    );
  });

  it("never settle when offered all the work they can do", () => {
    expect(manyServers(2, 1, 2)).toBeNull();
    expect(oneServer(1, 1, 0)).toBeNull();
    expect(uneven(3, 1, 2, 1, 1)).toBeNull();
    expect(erlangC(5, 3)).toBe(1);
  });

  it("wait less with one server more", () => {
    fc.assert(
      fc.property(fc.record(loads), ({ servers, use }) => {
        const fewer = manyServers(use * servers, 1, servers);
        const more = manyServers(use * servers, 1, servers + 1);
        expect(more?.meanWait).toBeLessThan(fewer?.meanWait ?? 0);
      }),
    );
  });

  it("hold the one-server formula inside the many-server approximation", () => {
    const exact = oneServer(0.8, 1, 0.5);
    expect(uneven(0.8, 1, 1, 1, 0.25)?.meanWait).toBeCloseTo(exact?.meanWait ?? Number.NaN, 12);
  });

  it("give quantiles whose tail integrates back to the mean wait", () => {
    const line = manyServers(0.9, 2, 2);
    if (line === null) throw new Error("this line settles");
    const steps = 200_000;
    let mean = 0;
    for (let step = 0; step < steps; step++) mean += waitQuantile(line, (step + 0.5) / steps) / steps;
    expect(mean).toBeCloseTo(line.meanWait, 2);
    expect(waitQuantile(line, 0.05)).toBe(0);
  });
});
