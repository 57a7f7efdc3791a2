import { expect, it } from "vitest";
import { namesOf, stallsNamed } from "../../src/screens/client/organiser/word/stalls-named.ts";

const STALLS = [
  { stall: "tern", name: "Tern & Tide" },
  { stall: "gannet", name: "Gannet Goods" },
  { stall: "gannet-2", name: "Gannet Goods" },
];

it.each([
  ["", [], []],
  ["  ,", [], []],
  ["tern & tide", ["tern"], []],
  ["Tern, TERN & TIDE", ["tern"], []],
  ["Gannet Goods", ["gannet", "gannet-2"], []],
  ["gannet-2, Heron, Dunlin & Co", ["gannet-2"], ["Heron", "Dunlin & Co"]],
])(
  "an announcement to %j goes to the stalls of that name, and says which name no stall has",
  (typed, wanted, unknown) => {
    expect(stallsNamed(typed, STALLS)).toEqual({ wanted, unknown });
  },
);

it("stalls are shown by their names", () => {
  expect(namesOf(["tern", "gone"], STALLS)).toBe("Tern & Tide, gone");
});
