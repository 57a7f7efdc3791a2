import { describe, expect, it } from "vitest";
import { shownBy } from "../../src/chat/talk/shown.ts";
import { type List, newTalk, type Step, type Talk } from "../../src/chat/talk/talk.ts";

// Plain ids in place of branded ones.
const talk = (step: unknown, list: unknown, basket: unknown = []): Talk => ({
  ...newTalk("en"),
  step: step as Step,
  list: list as List,
  basket: basket as Talk["basket"],
});
const draft = { offer: "otter-tee", colour: null, size: null, quantity: null };

describe("what a page can draw beside a reply", () => {
  it("is each offer of the menu, by its number", () => {
    const shown = shownBy(talk({ at: "idle" }, { of: "offers", offers: ["longtail-tee", "otter-tee"] }));
    expect(shown.choices).toEqual([
      { number: 1, offer: "longtail-tee" },
      { number: 2, offer: "otter-tee" },
    ]);
    expect(shown.basket).toEqual([]);
  });
  it("is the offer in each of its colours", () => {
    const at = { at: "choosing", draft, page: 0 };
    expect(shownBy(talk(at, { of: "colours", colours: ["sand", "black"] })).choices).toEqual([
      { number: 1, offer: "otter-tee", colour: "sand" },
      { number: 2, offer: "otter-tee", colour: "black" },
    ]);
  });
  it("is what a number of other picks stands for, and nothing for yes and no", () => {
    const picks = [{ take: "yes" }, { take: "colour", colour: "sand" }];
    const at = { at: "which", about: "colour", draft, picks };
    expect(shownBy(talk(at, { of: "picks", picks })).choices).toEqual([
      { number: 2, offer: "otter-tee", colour: "sand" },
    ]);
  });
  it("is the basket while it is to be confirmed, and only then", () => {
    const line = { offer: "otter-tee", colour: "sand", size: "L", quantity: 2, each: 2600 };
    const basket = [{ offer: "otter-tee", colour: "sand", size: "L" }];
    expect(shownBy(talk({ at: "confirm", shown: 5200 }, { of: "nothing" }, [line])).basket).toEqual(basket);
    expect(shownBy(talk({ at: "idle" }, { of: "nothing" }, [line])).basket).toEqual([]);
  });
});
