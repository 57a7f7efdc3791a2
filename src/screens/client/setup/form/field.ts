/** One field of the set-up as data: its label, and how its text is read and shown. */
import { type CurrencyCode, MINOR_DIGITS } from "../../../../model/basics/minor-digits.ts";
import { minorUnitsTyped } from "../../crew/words/money.ts";
import { type Json, valueAt } from "../../kit/json-pointer.ts";
import { listed } from "../../start/short-name.ts";

/**
 * The kind of a field's value, and so how its text is read: whole words, several with commas between, a figure, an
 * amount (also below zero), a share in percent.
 */
type Takes = "words" | "list" | "colour" | "figure" | "money" | "percent" | "yes-no";

export type Field = {
  readonly pointer: string;
  readonly label: string;
  readonly takes: Takes;
  readonly unit?: string;
  readonly help?: string | undefined;
  readonly wide?: true;
  /** The colour shown while none is typed. */
  readonly guess?: string;
  readonly choices?: readonly (readonly [words: string, value: Json | undefined])[];
};

/** Makes the fields that take one kind of thing. */
const asks =
  (takes: Takes) =>
  (pointer: string, label: string, more: Omit<Field, "pointer" | "label" | "takes"> = {}): Field => ({
    pointer,
    label,
    takes,
    ...more,
  });
export const words = asks("words");
export const list = asks("list");
export const colour = asks("colour");
export const figure = asks("figure");
export const money = asks("money");
export const percent = asks("percent");
export const yesNo = asks("yes-no");

/** The currency of a menu as typed; dollars if it is invalid, so that amounts can be read at all. */
export function currencyOf(menu: Json): CurrencyCode {
  const code = valueAt(menu, "#/currency");
  return typeof code === "string" && code in MINOR_DIGITS ? (code as CurrencyCode) : "USD"; // a key of the digits
}

/** The id of a field's element, and the beginning of its notes' ids. */
export const idOf = (pointer: string): string => `at${pointer.replaceAll(/[^A-Za-z0-9]+/g, "-")}`;

/** The exact amount or share in its smallest unit if it is one, else the words as typed: nothing is lost. */
export function readField({ takes }: Field, text: string, currency: CurrencyCode): Json | undefined {
  const typed = text.trim();
  if (typed === "") return undefined;
  switch (takes) {
    case "words":
    case "colour":
    case "yes-no":
      return text;
    case "list":
      return listed(text);
    case "figure":
      return /^-?\d+(?:[.,]\d+)?$/.test(typed) ? Number(typed.replace(",", ".")) : typed;
    case "money":
      return sumTyped(typed, currency) ?? typed;
    case "percent": {
      const share = /^(\d{1,3})(?:[.,](\d{1,4}))?\s*%?$/.exec(typed);
      return share === null ? typed : Number(`${share[1]}${(share[2] ?? "").padEnd(4, "0")}`);
    }
    default:
      return takes satisfies never;
  }
}

/** The minor units of a typed amount, "-5" too; null if it is not one. */
function sumTyped(typed: string, currency: CurrencyCode): number | null {
  const [, less, sum = ""] = /^([-−]?)\s*(.*)$/.exec(typed) ?? [];
  const units = minorUnitsTyped(sum, currency);
  return units === null || less === "" ? units : -units;
}

/** A kept value as it is typed. */
export function showField({ takes, guess }: Field, value: Json | undefined, currency: CurrencyCode): string {
  if (value === undefined || value === null) return guess ?? "";
  if (Array.isArray(value)) return value.join(", ");
  if (typeof value !== "number") return String(value);
  if (takes === "money") {
    const digits = MINOR_DIGITS[currency];
    return (value / 10 ** digits).toFixed(digits);
  }
  return takes === "percent" ? String(value / 10_000) : String(value);
}
