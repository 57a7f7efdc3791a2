/** Four thousand of the bodies that `npm run bench -- fuzz` sends a million of. */
import { expect, it } from "vitest";
import { fuzz } from "./fuzz.ts";
import { bundled } from "./in-process.ts";

it("4,000 random and mutated bodies and texts: no fault, nothing half-written", async () => {
  const { faults, halfWritten, byStatus } = await fuzz(await bundled(), 4_000, 1);
  expect(faults).toEqual([]);
  expect(halfWritten).toEqual([]);
  // It reaches what it is meant to: much is taken, much is refused, for more than one reason.
  const count = (status: number): number => byStatus.get(status) ?? 0;
  expect(count(200) + count(201) + count(204)).toBeGreaterThan(1200);
  expect(count(400)).toBeGreaterThan(200);
  expect(count(409)).toBeGreaterThan(10);
  expect(count(422)).toBeGreaterThan(10);
}, 400_000);
