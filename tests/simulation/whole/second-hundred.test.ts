import { expect, it } from "vitest";
import { firstFault } from "./plays.ts";

it("a hundred more fairs break no rule", async () => {
  expect(await firstFault(101, 100)).toBeNull();
}, 400_000);
