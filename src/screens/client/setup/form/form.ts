/** The whole form over a menu: presses, blanks, designs, offers, rules. Redrawn when its shape changes, never while typing. */

import type { Fault } from "../../../../model/basics/faults.ts";
import { type CurrencyCode, MINOR_DIGITS } from "../../../../model/basics/minor-digits.ts";
import { moneyWords } from "../../crew/words/money.ts";
import { byId, element } from "../../kit/dom.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import type { DesignPictures } from "../pictures/design-pictures.ts";
import { newBlank, newDesign, newOffer, newPress } from "./adding.ts";
import { drawChoices } from "./choices.ts";
import { type Desk, drawField, type Field, idOf } from "./field.ts";
import { KIND_NAMES } from "./kinds.ts";
import { limits } from "./limits.ts";
import { drawRows, openRows, type Row } from "./rows.ts";
import { ESSENTIAL_RULES, OTHER_RULES } from "./rules.ts";
import { blankFields, designFields, offerFields, pressFields } from "./sections.ts";

const howMany = (rows: readonly unknown[], one: string): string =>
  `${rows.length} ${rows.length === 1 ? one : `${one}s`}`;

export type Form = {
  readonly draw: (open?: string) => void;
  readonly showFaults: (faults: readonly Fault[]) => void;
};

export type FormSettings = {
  readonly pictures: DesignPictures;
  readonly menu: () => Json;
  readonly set: (pointer: string, value: Json | undefined) => void;
  /** Adds to the end of a list, and opens what was added. */
  readonly add: (list: string, entries: readonly Json[]) => void;
  /** Takes an entry out, or off sale where open orders need it. */
  readonly remove: (list: string, index: number) => void;
};

type List = "presses" | "blanks" | "designs" | "offers";

export function formOf({ menu, set, add, remove, pictures }: FormSettings): Form {
  const currency = (): CurrencyCode => {
    const code = valueAt(menu(), "#/currency");
    return typeof code === "string" && code in MINOR_DIGITS ? (code as CurrencyCode) : "USD"; // a key of the digits
  };
  const desk: Desk = { at: (pointer) => valueAt(menu(), pointer), set, currency };
  const drawn = (fields: readonly Field[]): HTMLElement =>
    element("div", { class: "asks" }, ...fields.map((field) => drawField(field, desk)));
  const words = (pointer: string): string => String(valueAt(menu(), pointer) ?? "");

  const insides: Readonly<Record<List, (at: string, index: number) => readonly Node[]>> = {
    presses: (at) => [drawn(pressFields(at))],
    blanks: (at) => [
      drawn(blankFields(menu(), at)),
      ...(["colours", "sizes"] as const).map((list) =>
        drawChoices({
          list,
          at,
          desk,
          menu: menu(),
          add: (entries) => add(`${at}/${list}`, entries),
          remove: (index) => remove(`${at}/${list}`, index),
        }),
      ),
    ],
    designs: (at) => [
      drawn(designFields(menu(), at)),
      pictures.drawDesign(words(`${at}/id`)),
      element(
        "p",
        { class: "small" },
        "Settings filled in by kind are common practice: check your supplier's sheet, which wins. A platen burns on touch.",
      ),
    ],
    offers: (at) => [
      pictures.drawOffer(words(`${at}/id`)),
      drawn(offerFields(menu(), at)),
      limits(at, menu(), set),
    ],
  };

  const notes: Readonly<Record<List, (at: string) => string>> = {
    presses: (at) => `${words(`${at}/platen`)} platen`,
    blanks: (at) =>
      `${howMany(rowsAt(menu(), `${at}/colours`), "colour")}, ${howMany(rowsAt(menu(), `${at}/sizes`), "size")}`,
    designs: (at) => {
      const kind = words(`${at}/kind`);
      const size = `${words(`${at}/widthInches`) || "?"} × ${words(`${at}/heightInches`) || "?"} in`;
      return `${size}, ${kind in KIND_NAMES ? KIND_NAMES[kind as keyof typeof KIND_NAMES] : kind}`; // checked beside it
    },
    offers: (at) => {
      const price = valueAt(menu(), `${at}/price`);
      return typeof price === "number" ? moneyWords(price, currency()) : "no price yet";
    },
  };

  const rowsOf = (list: List): readonly Row[] =>
    rowsAt(menu(), `#/${list}`).map((_, index) => {
      const at = `#/${list}/${index}`;
      const off = valueAt(menu(), `${at}/offered`) === false ? ", off sale" : "";
      return {
        pointer: at,
        key: `${list} ${list === "presses" ? index : words(`${at}/id`)}`,
        title: list === "presses" ? `Press ${words(`${at}/id`)}` : words(`${at}/name`),
        note: notes[list](at) + off,
        fill: () => insides[list](at, index),
        remove: () => remove(`#/${list}`, index),
      };
    });

  const addNamed = (list: "blanks" | "designs", make: (menu: Json, name: string) => Json): void => {
    const field = byId<HTMLInputElement>(`${list}-name`);
    const name = field.value.trim();
    if (name === "") return field.focus();
    field.value = "";
    add(`#/${list}`, [make(menu(), name)]);
  };
  for (const [list, make] of [
    ["blanks", newBlank],
    ["designs", newDesign],
  ] as const) {
    byId(`${list}-add`).addEventListener("click", () => addNamed(list, make));
    byId(`${list}-name`).addEventListener("keydown", (event) => {
      if (event.key === "Enter") addNamed(list, make);
    });
  }
  byId("presses-add").addEventListener("click", () => add("#/presses", [newPress(menu())]));
  byId("offers-add").addEventListener("click", () => add("#/offers", [newOffer(menu())]));

  return {
    draw(open) {
      const before = new Set(openRows(document));
      if (open !== undefined) before.add(open);
      for (const list of ["presses", "blanks", "designs", "offers"] as const)
        byId(list).replaceChildren(...drawRows(rowsOf(list), before, list));
      byId("rules").replaceChildren(drawn(ESSENTIAL_RULES));
      byId("other-rules").replaceChildren(
        ...OTHER_RULES.map(([legend, fields]) =>
          element("fieldset", {}, element("legend", {}, legend), drawn(fields)),
        ),
      );
    },
    showFaults(faults) {
      for (const told of document.querySelectorAll(".fault")) told.textContent = "";
      for (const entry of document.querySelectorAll("[aria-invalid]")) entry.removeAttribute("aria-invalid");
      const sums = new Map<HTMLElement, number>();
      for (const { pointer, detail } of faults) {
        const beside = document.getElementById(`${idOf(pointer)}-fault`);
        if (beside !== null) beside.textContent = `${beside.textContent} ${detail}.`.trim();
        document.getElementById(idOf(pointer))?.setAttribute("aria-invalid", "true");
        const row = /^#\/(?:presses|blanks|designs|offers)\/\d+/.exec(pointer)?.[0];
        const sum = row === undefined ? null : document.getElementById(`${idOf(row)}-sum`);
        if (sum !== null) sums.set(sum, (sums.get(sum) ?? 0) + 1);
      }
      for (const [sum, count] of sums)
        sum.textContent = count === 1 ? "1 thing to mend" : `${count} things to mend`;
    },
  };
}
