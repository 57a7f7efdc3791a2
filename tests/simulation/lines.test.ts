import { describe, expect, it } from "vitest";
import { seededRandom } from "../../src/maths/random.ts";
import { manyServers, oneServer } from "../../src/maths/waiting.ts";
import { WantedLine } from "../../src/model/orders/order.ts";
import { exponential, lognormal } from "./chances.ts";
import { live } from "./floor.ts";
import { OPENS, openStall, simulatedMenu } from "./stall.ts";

const MEAN = 75;
const WARM_UP = 100;
const COUNTED = 400;

/** Mean wait before pressing, in seconds, of each of some runs of a steady line. */
function runs(presses: number, use: number, handling: (random: ReturnType<typeof seededRandom>) => number) {
  return Array.from({ length: 8 }, (_, run) => {
    const random = seededRandom(1000 * presses + run);
    const [coming, working] = [random.fork(), random.fork()];
    let at = OPENS;
    const arrivals = Array.from({ length: WARM_UP + COUNTED }, () => {
      at += exponential(coming, (1000 * MEAN) / (use * presses));
      const line = { offer: "offer-0", colour: "navy", size: "L", quantity: 1 };
      return { at: Math.round(at), lines: [WantedLine.parse(line)] };
    });
    const menu = simulatedMenu({ presses, garmentSeconds: MEAN, fahrenheit: [365] });
    const { orders } = live({
      state: openStall(menu, at + 1),
      arrivals,
      breakdowns: [],
      hands: () => Number.POSITIVE_INFINITY,
      handsTold: [],
      takenBy: "counter",
      handlingSeconds: () => handling(working),
      changeSeconds: () => 0,
      spoilShare: 0,
      chance: random.fork(),
    });
    const counted = [...orders].sort((one, other) => one.placedAt - other.placedAt).slice(WARM_UP);
    const stay = counted.reduce((sum, { placedAt, readyAt }) => sum + (readyAt - placedAt) / 1000, 0);
    return stay / counted.length;
  });
}

function expectMean(values: readonly number[], known: number): void {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
  const error = Math.sqrt(square / values.length);
  expect(Math.abs(mean - known), `${mean} against ${known}, standard error ${error}`).toBeLessThan(3 * error);
  // The test must not pass for just any value.
  expect(error / known).toBeLessThan(0.1);
}

/** The formulas themselves are held against published values in tests/checks/waiting.test.ts. */
describe("the simulated floor, where a formula applies", () => {
  it.each([
    [1, 0.6],
    [3, 0.7],
  ])("stays as long as Erlang C says with %i presses in use %d of the time", (presses, use) => {
    const known = manyServers((use * presses) / MEAN, MEAN, presses);
    expectMean(
      runs(presses, use, (random) => exponential(random, MEAN)),
      known?.meanStay ?? Number.NaN,
    );
  });
  it("stays as long as Pollaczek and Khinchine say with one press and lognormal handling", () => {
    const known = oneServer(0.65 / MEAN, MEAN, 0.4 * MEAN);
    expectMean(
      runs(1, 0.65, (random) => lognormal(random, MEAN, 0.4)),
      known?.meanStay ?? Number.NaN,
    );
  });
});
