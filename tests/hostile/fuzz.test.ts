/** Two thousand of the bodies that `npm run bench -- fuzz` sends a million of. */
import { expect, it } from "vitest";
import { fuzz } from "./fuzz.ts";
import { bundled } from "./in-process.ts";

it("2,000 random and mutated bodies and texts: no fault, nothing half-written", async () => {
  const { faults, halfWritten, byStatus } = await fuzz(await bundled(), 2_000, 1);
  expect(faults).toEqual([]);
  expect(halfWritten).toEqual([]);
  // The fuzzer reaches both outcomes: much is accepted, much is refused, for several reasons.
  const count = (status: number): number => byStatus.get(status) ?? 0;
  expect(count(200) + count(201) + count(204)).toBeGreaterThan(500);
  expect(count(400)).toBeGreaterThan(100);
  expect(count(409)).toBeGreaterThan(5);
  expect(count(422)).toBeGreaterThan(5);
}, 400_000);
