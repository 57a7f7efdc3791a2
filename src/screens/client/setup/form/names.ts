/** Places of a menu as a person finds them, in the words of the page. Pure. */

import { AnswerSubject } from "../../../../model/menu/answers.ts";
import { isRecord, type Json, valueAt } from "../../kit/json-pointer.ts";
import { same } from "../../kit/merging.ts";
import { spelt } from "../../kit/spelling.ts";
import { currencyOf, type Field, showField } from "./field.ts";
import { answerFields, ESSENTIAL_RULES, OTHER_RULES } from "./rules.ts";
import { isList, LISTS } from "./sections.ts";

/** Places that have no field of their own, in words. */
const OTHERS: Readonly<Record<string, string>> = { takes: "what it takes", quantity: "how many" };
const RULES = [
  ...ESSENTIAL_RULES,
  ...OTHER_RULES.flatMap(([, fields]) => fields),
  ...AnswerSubject.options.flatMap((subject) => answerFields(subject)),
];
const HEADS = [
  ["#/rules/", "Rules"],
  ["#/answers/", "Answers"],
] as const;

/** The rows that a pointer goes through, the outermost first: their lists and places. */
function rowsOn(pointer: string): readonly { readonly list: keyof typeof LISTS; readonly at: string }[] {
  const steps = pointer.split("/");
  return steps.flatMap((list, n) =>
    isList(list) && /^\d+$/.test(steps[n + 1] ?? "") ? [{ list, at: steps.slice(0, n + 2).join("/") }] : [],
  );
}

/** The field of the page at a place of the menu; undefined if the place is a row or a list. */
export function fieldAt(menu: Json, pointer: string): Field | undefined {
  const row = rowsOn(pointer).at(-1);
  const fields = row === undefined ? RULES : LISTS[row.list].fields(menu, row.at);
  return fields.find((field) => field.pointer === pointer);
}

/** The place that the page has a field for: this one or the one that it is a part of; else this one. */
export function placeAsked(menu: Json, pointer: string): string {
  const within = pointer.replace(/\/\w+$/, "");
  return fieldAt(menu, pointer) === undefined && fieldAt(menu, within) !== undefined ? within : pointer;
}

/** A place without a field: a list by its contents, a row without a name. */
function wordsOf(last: string): string {
  if (isList(last)) return LISTS[last].one === "Press" ? "Presses" : `${LISTS[last].one}s`;
  return /^(?:\d+|#)$/.test(last) ? "" : (OTHERS[last] ?? last);
}

/** "Garment Tee, colour Navy", "Product Otter tee, price", "Rules, sales tax". */
export function nameAt(menu: Json, pointer: string): string {
  const rows = rowsOn(pointer).map(
    ({ list, at }) =>
      `${spelt(LISTS[list].one)} ${valueAt(menu, `${at}/name`) ?? valueAt(menu, `${at}/id`) ?? ""}`,
  );
  const place = placeAsked(menu, pointer);
  const last = place.split("/").at(-1) ?? "";
  const label = spelt(fieldAt(menu, place)?.label ?? wordsOf(last));
  const field = label.charAt(0).toLowerCase() + label.slice(1);
  const head = HEADS.flatMap(([of, called]) => (pointer.startsWith(of) ? [called] : []));
  return [...(head.length > 0 ? head : rows), field].filter((part) => part !== "").join(", ");
}

/** The value at a place of a menu, as the page shows it. */
export function valueWords(menu: Json, pointer: string, value: Json | undefined): string {
  if (value === undefined) return "nothing";
  const field = fieldAt(menu, pointer);
  const choice = field?.choices?.find(([, one]) => same(one, value))?.[0];
  if (choice !== undefined) return `“${choice}”`;
  if (isRecord(value)) return "another";
  if (typeof value === "boolean") return value ? "yes" : "no";
  return field === undefined ? String(value) : `“${showField(field, value, currencyOf(menu))}”`;
}
