/** The whole set-up page through any run of typing, taps, answers and losses of signal. */
import fc from "fast-check";
import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { type Json, rowsAt, valueAt, withValue } from "../../../src/screens/client/kit/json-pointer.ts";
import type { Actions } from "../../../src/screens/client/setup/actions.ts";
import { newBundle, newDesign, newTake, newWish } from "../../../src/screens/client/setup/form/adding.ts";
import { type Field, figure, money, words } from "../../../src/screens/client/setup/form/field.ts";
import { LISTS } from "../../../src/screens/client/setup/form/sections.ts";
import { changesOf } from "../../../src/screens/client/setup/saving/changes.ts";
import { checkMenu } from "../../../src/screens/client/setup/saving/checking.ts";
import { EMPTY_MENU } from "../../../src/screens/client/setup/saving/keeping.ts";
import { shownOf } from "../../../src/screens/client/setup/shown.ts";
import {
  added,
  answered,
  begun,
  chosen,
  firstState,
  going,
  leaving,
  looking,
  removed,
  type State,
  savingNow,
  takenTheirs,
  texted,
  tried,
  typing,
  writing,
} from "../../../src/screens/client/setup/state.ts";
import { Setup } from "../../../src/screens/client/setup/view.tsx";
import { exampleMenu } from "../../stall/test-stall.ts";
import { controlsIn } from "../controls.ts";

const saved = JSON.parse(JSON.stringify(exampleMenu())) as Json; // a menu is JSON
const stateOf = (menu: Json): State =>
  firstState(
    { name: "Tern & Tide", stock: null, needs: { orders: [] }, pictures: [], others: [] },
    { base: menu, tag: "v1", menu },
  );
const nothing = (): void => undefined;
const actions: Actions = {
  change: nothing,
  save: nothing,
  discard: nothing,
  copy: nothing,
  picture: nothing,
  text: nothing,
  pages: { plan: "/plan", closeout: "/closeout" },
};
const read = (state: State): string =>
  renderToString(h(Setup, { state, actions }))
    .replaceAll(/<svg.*?<\/svg>/g, "")
    .replaceAll(/<[^>]*>/g, " ")
    .replaceAll(/\s+/g, " ");
const price = (index: number) => money(`#/offers/${index}/price`, "Price");

/** An offer that stays, a design's width and a rule: typed over again and again. */
const TYPED = [
  { list: "#/offers", id: "longtail-tee", field: "price", of: money },
  { list: "#/offers", id: "otter-tee", field: "name", of: words },
  { list: "#/designs", id: "otter", field: "widthInches", of: figure },
] as const;
const placeOf = (menu: Json, { list, id, field }: (typeof TYPED)[number]): string => {
  const index = rowsAt(menu, list).findIndex((row) => valueAt(row, "#/id") === id);
  return `${list}/${index}/${field}`;
};

type Act =
  | { readonly type: "typed"; readonly which: number; readonly text: string }
  | { readonly type: "elsewhere" | "saved" | "unanswered" | "refused" | "faults" | "tried" | "look" }
  | { readonly type: "changed"; readonly price: number }
  | { readonly type: "added" | "removed" | "save" | "text" | "go" };

const acts: fc.Arbitrary<Act> = fc.oneof(
  fc.record({
    type: fc.constant("typed" as const),
    which: fc.nat(TYPED.length - 1),
    text: fc.constantFrom("2", "24.", "24.5", "a lot", "12,5", "7"),
  }),
  fc
    .constantFrom(
      ...([
        "elsewhere",
        "saved",
        "unanswered",
        "refused",
        "faults",
        "tried",
        "added",
        "removed",
        "save",
        "go",
      ] as const),
    )
    .map((type) => ({ type })),
  fc.record({ type: fc.constant("changed" as const), price: fc.integer({ min: 100, max: 9000 }) }),
);

function after(state: State, sent: Json, act: Act): State {
  const { menu, base } = state.draft;
  switch (act.type) {
    case "typed": {
      const one = TYPED[act.which] ?? TYPED[0];
      return typing(state, one.of(placeOf(menu, one), one.field), act.text);
    }
    case "elsewhere":
      return leaving(state);
    case "saved":
      return answered(state, sent, { came: "saved", tag: "v2" });
    case "unanswered":
      return answered(state, sent, { came: "unanswered" });
    case "refused":
      return answered(state, sent, { came: "refused", why: "Not now.", status: 409 });
    case "faults":
      return answered(state, sent, {
        came: "faults",
        faults: [{ pointer: "#/offers/0", detail: "is in use" }],
      });
    case "tried":
      return tried(state, menu, [{ pointer: "#/blanks/0", detail: "would fall short" }]);
    case "changed":
      // Somebody else moved the rows, changed a price and a rule.
      return answered(state, sent, {
        came: "changed",
        tag: "v3",
        theirs: withValue(
          withValue(
            base,
            "#/offers",
            rowsAt(base, "#/offers")
              .toReversed()
              .map((row) => withValue(row, "#/price", act.price)),
          ),
          "#/rules/lowStock",
          act.price % 9,
        ),
      });
    case "added":
      return added(state, "#/designs", newDesign(menu, "Heron"));
    case "removed":
      return removed(state, "#/blanks/0/colours", 1);
    case "save":
      return savingNow(state);
    case "text":
      return texted(writing(state, "say-text", "1"), "1", 0);
    case "look":
      return looking(state, 0);
    case "go":
      return going(state, "#/designs/0/name");
    default:
      return act satisfies never;
  }
}

const ANSWERS = ["saved", "unanswered", "refused", "faults", "tried", "look", "changed"];

describe("the set-up page", () => {
  it("loses nothing that is typed, blames no field before it was left, and has no dead button", () => {
    fc.assert(
      fc.property(fc.array(acts, { maxLength: 14 }), (run) => {
        let state = stateOf(saved);
        let sent = saved;
        const typed = new Map<number, string>();
        for (const act of run) {
          const before = state;
          state = after(before, sent, act);
          if (act.type === "typed") typed.set(act.which, act.text);
          if (act.type === "save" && state.saving) sent = state.draft.menu;
          // A typed value stays whatever the stall answers, read as its field reads it.
          for (const [which, text] of typed) {
            const one = TYPED[which] ?? TYPED[0];
            const again = typing(stateOf(saved), one.of(placeOf(saved, one), one.field), text).draft.menu;
            expect(valueAt(state.draft.menu, placeOf(state.draft.menu, one))).toEqual(
              valueAt(again, placeOf(again, one)),
            );
          }
          if (ANSWERS.includes(act.type)) expect(state.written).toEqual(before.written);
          if (ANSWERS.includes(act.type) && act.type !== "changed")
            expect([state.draft.menu, state.typing]).toEqual([before.draft.menu, before.typing]);

          const shown = shownOf(state);
          if (!state.tried)
            expect([...shown.faults.keys()].filter((one) => !state.left.has(one))).toEqual([]);
          const changes = changesOf(state.draft.base, state.draft.menu).length;
          const controls = controlsIn(h(Setup, { state, actions }));
          expect(controls.filter(({ gone }) => gone).map(({ name }) => name)).toEqual(
            changes > 0 && !state.saving ? [] : ["Save"],
          );
          expect(controls.some(({ name }) => name === "Discard changes")).toBe(changes > 0);
        }
      }),
      { numRuns: 20 },
    );
  });

  it("says what is wrong with a price once it was left, beside it, in its row and in the bar", () => {
    const typed = typing(going(stateOf(saved), "#/offers/0/price"), price(0), "a lot");
    expect(shownOf(typed).faults.size).toBe(0);
    const left = read(leaving(typed));
    expect(left).toContain("1 thing to fix");
    expect(left).toContain("must be a price, e.g. 24.50.");
    expect(left).toContain("Product Longtail tee, price: must be a price, e.g. 24.50");
    expect(left).toContain("1 change, not saved yet; fix 1 first.");
  });

  it("leads whoever saves too early to the first thing that is wrong, and opens its row", () => {
    const state = savingNow(leaving(typing(stateOf(saved), price(1), "")));
    expect(state.saving).toBe(false);
    expect(state.notice).toContain("One thing is still to fix");
    expect(state.goto[0]).toBe("at-offers-1-price");
    expect([...state.open]).toEqual([`offers ${String(valueAt(saved, "#/offers/1/id"))}`]);
  });

  it("shows a field as it is typed, and as it is kept once it was left", () => {
    const typed = typing(going(stateOf(saved), "#/offers/0/price"), price(0), "27.5");
    const valueIn = (state: State): string =>
      /id="at-offers-0-price"[^>]*value="([^"]*)"/.exec(renderToString(h(Setup, { state, actions })))?.[1] ??
      "";
    expect([valueIn(typed), valueIn(leaving(typed))]).toEqual(["27.5", "27.50"]);
    expect(valueAt(typed.draft.menu, "#/offers/0/price")).toBe(2750);
  });

  it("tells a change in the page's own words, and only once", () => {
    const changed = [
      chosen(stateOf(saved), "#/rules/payment", "before-pressing"),
      chosen(stateOf(saved), "#/blanks/0/colours/0/offered", false),
      chosen(stateOf(saved), "#/designs/0/spot", { at: "back" }),
      chosen(stateOf(saved), "#/answers/payment/en", "Cash and cards."),
      removed(stateOf(saved), "#/offers", 0),
    ].map(({ draft }) => changesOf(draft.base, draft.menu).map(({ says }) => says));
    expect(changed).toMatchInlineSnapshot(`
      [
        [
          "Rules, payment: “before it is handed over” becomes “before it is pressed”",
        ],
        [
          "Garment Tee, colour Navy: taken off sale",
        ],
        [
          "Design Longtail, drawn on the: nothing becomes “back”",
        ],
        [
          "Answers, cards? In English: nothing becomes “Cash and cards.”",
        ],
        [
          "Product Longtail tee: taken out; those after it move up a number",
        ],
      ]
    `);
  });

  it("keeps a blame on its own row when an earlier row goes", () => {
    const left = leaving(typing(stateOf(saved), price(1), "a lot"));
    const { faults } = shownOf(removed(left, "#/offers", 0));
    expect([...faults.keys()]).toEqual(["#/offers/0/price"]);
  });

  it("takes theirs if both changed the same, and forgets the question", () => {
    const mine = typing(stateOf(saved), price(0), "31");
    const theirs = withValue(saved, "#/offers/0/price", 3300);
    const state = answered(mine, mine.draft.menu, { came: "changed", theirs, tag: "v2" });
    expect(valueAt(state.draft.menu, "#/offers/0/price")).toBe(3100);
    const [collision] = state.meanwhile?.collisions ?? [];
    if (collision === undefined) throw new Error("both changed the price");
    expect(read(state)).toContain("You both changed Product Longtail tee, price");
    const taken = takenTheirs(state, collision);
    expect(valueAt(taken.draft.menu, "#/offers/0/price")).toBe(3300);
    expect(taken.meanwhile?.collisions).toEqual([]);
  });

  it("has the conversation of the menu as typed beside it, and answers a text of one's own", () => {
    const shown = looking(stateOf(saved), 0);
    expect(read(shown)).toContain("replies, ");
    const said = texted(shown, "hours", 0);
    expect(said.looked?.said[0]).toMatchObject({ from: "customer", text: "hours" });
    expect(texted(said, "  ", 0)).toBe(said);
    expect(texted(said, null, 0).texts).toEqual([]);
  });

  it("takes wishes with their price, time, transfer and words, and offers those that many stalls are asked for", () => {
    const usual = (state: State): readonly string[] =>
      controlsIn(h(Setup, { state, actions }))
        .map(({ name }) => name)
        .filter((name) => ["Back print", "Own garment", "Gift"].includes(name));
    expect(usual(stateOf(saved))).toEqual(["Back print", "Own garment", "Gift"]);
    const one = added(stateOf(saved), "#/wishes", newWish(saved, "Back print"));
    expect(usual(one)).toEqual(["Own garment", "Gift"]);
    expect(one.goto[0]).toBe("at-wishes-0-surcharge");
    const { fields } = LISTS.wishes;
    const field = (state: State, part: string): Field => {
      const found = fields(state.draft.menu, "#/wishes/0").find(
        ({ pointer }) => pointer === `#/wishes/0/${part}`,
      );
      if (found === undefined) throw new Error(`a wish has no ${part}`);
      return found;
    };
    const own = added(stateOf(saved), "#/wishes", newWish(saved, "Own garment"));
    const typed = typing(
      typing(own, field(own, "surcharge"), "-5"),
      field(own, "asked"),
      "my own, bring mine",
    );
    const { menu } = checkMenu(typed.draft.menu);
    expect(menu?.wishes).toEqual([
      {
        id: "own-garment",
        name: "Own garment",
        offered: true,
        surcharge: -500,
        seconds: 0,
        ownGarment: true,
        asked: ["my own", "bring mine"],
      },
    ]);
    expect(read(typed)).toContain("Own garment −$5.00");
    // A wish for a missing transfer is reported at its own field, and counts as a fault of the products.
    const wrong = savingNow(chosen(one, "#/wishes/0/second", { design: "gone" }));
    expect([...shownOf(wrong).faults.keys()]).toEqual(["#/wishes/0/second"]);
    expect(wrong.goto[0]).toBe("at-wishes-0-second");
    expect(shownOf(wrong).steps.map(({ says }) => says)).toEqual([
      "3",
      "4",
      "1 to fix",
      "3",
      "Set",
      "1 to fix",
    ]);
    // The last one taken out leaves a menu as it was.
    expect(changesOf(saved, removed(one, "#/wishes", 0).draft.menu)).toEqual([]);
    expect(removed(one, "#/wishes", 0).draft.menu).toEqual(saved);
  });

  it("makes a bundle of the garments that its name has, tells one that saves nothing, and drops what is gone", () => {
    const takes = (name: string) => valueAt(newBundle(saved, name), "#/takes");
    const tees = ["longtail-tee", "red-kite-tee", "otter-tee"];
    expect(takes("Any 2 tees")).toEqual([{ offers: tees, quantity: 2 }]);
    expect(takes("Tee and cap")).toEqual([
      { offers: tees, quantity: 1 },
      { offers: ["tern-cap"], quantity: 1 },
    ]);
    const one = added(stateOf(saved), "#/bundles", newBundle(saved, "Any 2 tees"));
    expect(one.goto[0]).toBe("at-bundles-0-price");
    const dear = looking(typing(one, money("#/bundles/0/price", "Price"), "52"), 0);
    expect(read(dear)).toContain("Any 2 tees costs no less than its garments one by one");
    const good = looking(typing(one, money("#/bundles/0/price", "Price"), "40"), 0);
    expect(read(good)).not.toContain("costs no less");
    expect(good.looked?.said.some(({ text }) => text.includes("Any 2 tees $40"))).toBe(true);
    expect(checkMenu(removed(good, "#/offers", 0).draft.menu).menu?.bundles?.[0]?.takes[0]?.offers).toEqual(
      tees.slice(1),
    );
    const other = added(good, "#/bundles/0/takes", newTake());
    const cap = chosen(other, "#/bundles/0/takes/1/offers", ["tern-cap"]);
    expect(checkMenu(cap.draft.menu).faults).toEqual([]);
    expect(changesOf(good.draft.menu, cap.draft.menu).map(({ says }) => says)).toEqual([
      "Bundle Any 2 tees, what it takes: changed",
    ]);
    const empty = savingNow(other);
    expect([...shownOf(empty).faults.keys()]).toEqual(["#/bundles/0/takes/1/offers"]);
  });

  it("begins with ways to fill an empty menu, and hides them once there is a garment", () => {
    const empty = stateOf(EMPTY_MENU);
    const names = (state: State): readonly string[] =>
      controlsIn(h(Setup, { state, actions })).map(({ name }) => name);
    expect(names(empty)).toContain("Begin with a tee in S to 2XL");
    expect(names(begun(empty, saved))).not.toContain("Begin with a tee in S to 2XL");
    expect(read(empty)).toContain("Garments Add one");
  });
});
