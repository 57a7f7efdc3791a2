/** One field of the set-up: its label, what it takes, and what is wrong with it, told beside it. */
import { type CurrencyCode, MINOR_DIGITS } from "../../../../model/basics/minor-digits.ts";
import { minorUnitsTyped } from "../../crew/words/money.ts";
import { element } from "../../kit/dom.ts";
import type { Json } from "../../kit/json-pointer.ts";

/** What a field holds, and so how what is typed is read: whole words, a figure, a sum, a share in percent. */
type Takes = "words" | "colour" | "figure" | "money" | "percent" | "yes-no";

export type Field = {
  readonly pointer: string;
  readonly label: string;
  readonly takes: Takes;
  readonly unit?: string;
  readonly help?: string;
  readonly wide?: true;
  /** What is shown of a colour that nobody has typed. */
  readonly guess?: string;
  readonly choices?: readonly (readonly [words: string, value: Json | undefined])[];
};

/** Whether a choice is what the menu holds: a word, or a few of them under their names. */
const isSame = (one: Json | undefined, value: Json | undefined): boolean =>
  JSON.stringify(one) === JSON.stringify(value);

/** What a field needs of the page it stands on. */
export type Desk = {
  readonly at: (pointer: string) => Json | undefined;
  readonly set: (pointer: string, value: Json | undefined) => void;
  readonly currency: () => CurrencyCode;
};

export const idOf = (pointer: string): string => `at${pointer.replaceAll(/[^A-Za-z0-9]+/g, "-")}`;

/** Exactly what a sum or share is in its smallest unit where it is one, else the words as typed: nothing is lost. */
function readField(takes: Takes, text: string, currency: CurrencyCode): Json | undefined {
  const typed = text.trim();
  if (typed === "") return undefined;
  switch (takes) {
    case "words":
    case "colour":
      return text;
    case "figure":
      return /^-?\d+(?:[.,]\d+)?$/.test(typed) ? Number(typed.replace(",", ".")) : typed;
    case "money":
      return minorUnitsTyped(typed, currency) ?? typed;
    case "percent": {
      const share = /^(\d{1,3})(?:[.,](\d{1,4}))?\s*%?$/.exec(typed);
      return share === null ? typed : Number(`${share[1]}${(share[2] ?? "").padEnd(4, "0")}`);
    }
    case "yes-no":
      return typed === "yes";
    default:
      return takes satisfies never;
  }
}

/** A kept value as it is typed. */
function showField(takes: Takes, value: Json | undefined, currency: CurrencyCode): string {
  if (value === undefined || value === null) return "";
  if (typeof value !== "number") return String(value);
  if (takes === "money") {
    const digits = MINOR_DIGITS[currency];
    return (value / 10 ** digits).toFixed(digits);
  }
  return takes === "percent" ? String(value / 10_000) : String(value);
}

/** As a cell of a table, whose column and row say what it is to whoever sees them, and `name` to whoever does not. */
export function drawCell(field: Field, name: string, desk: Desk): HTMLElement {
  const drawn = drawField(field, desk);
  const label = drawn.querySelector("label");
  if (field.takes === "yes-no") label?.lastChild?.remove();
  else label?.classList.add("offstage");
  for (const unit of drawn.querySelectorAll(".unit, .help")) unit.remove();
  const entry = drawn.querySelector("input, select");
  entry?.setAttribute("aria-label", name);
  entry?.setAttribute("aria-describedby", `${idOf(field.pointer)}-fault`);
  return drawn;
}

export function drawField(field: Field, desk: Desk): HTMLElement {
  const { pointer, label, takes, unit, help, wide, choices } = field;
  const id = idOf(pointer);
  const notes = element("p", { id: `${id}-fault`, class: "fault" });
  const value = desk.at(pointer);
  if (takes === "yes-no") {
    const box = element("input", { id, type: "checkbox", "aria-describedby": `${id}-fault` });
    box.checked = value !== false;
    box.addEventListener("change", () => desk.set(pointer, box.checked));
    return element("div", { class: "ask tick" }, element("label", { for: id }, box, ` ${label}`), notes);
  }
  if (takes === "colour") {
    const box = element("input", {
      id,
      type: "color",
      class: "swatch",
      "aria-describedby": `${id}-fault`,
      value: String(value ?? field.guess ?? ""),
      oninput: () => desk.set(pointer, box.value),
    });
    return element("div", { class: "ask" }, element("label", { for: id }, label), box, notes);
  }
  const entry =
    choices === undefined
      ? element("input", {
          id,
          type: "text",
          autocomplete: "off",
          spellcheck: "false",
          inputmode: takes === "words" ? "text" : "decimal",
          "aria-describedby": `${id}-help ${id}-fault`,
          value: showField(takes, value, desk.currency()),
          oninput: ({ target }) =>
            desk.set(pointer, readField(takes, (target as HTMLInputElement).value, desk.currency())), // made here
        })
      : element(
          "select",
          {
            id,
            "aria-describedby": `${id}-help ${id}-fault`,
            onchange: ({ target }) =>
              desk.set(pointer, choices[(target as HTMLSelectElement).selectedIndex]?.[1]), // made here
          },
          ...choices.map(([words, one]) => element("option", { selected: isSame(one, value) }, words)),
        );
  return element(
    "div",
    { class: wide ? "ask wide" : "ask" },
    element(
      "label",
      { for: id },
      label,
      unit === undefined ? null : element("span", { class: "unit" }, ` ${unit}`),
    ),
    entry,
    element("p", { id: `${id}-help`, class: "help" }, help ?? ""),
    notes,
  );
}
