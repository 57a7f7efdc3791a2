/** What differs between two menus, told so that a person knows what an edit will do. */
import { type CurrencyCode, MINOR_DIGITS } from "../../../../model/basics/minor-digits.ts";
import { moneyWords } from "../../crew/words/money.ts";
import type { Json, Requested } from "../../kit/json-pointer.ts";
import { same } from "../../kit/merging.ts";

export type Change = { readonly pointer: string; readonly says: string };

const isRecord = (value: Json | undefined): value is Requested =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const LISTS: Readonly<Record<string, string>> = {
  blanks: "Garment",
  colours: "colour",
  sizes: "size",
  designs: "Design",
  offers: "Product",
  presses: "Press",
  rules: "Rules",
};

/** A field's name in the words of the page: "taxPartsPerMillion" as "tax parts per million". */
const fieldWords = (name: string): string =>
  name.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

const nameOf = (entry: Json | undefined): string =>
  isRecord(entry) ? String(entry["name"] ?? entry["id"] ?? "") : "";

/** Every place where `after` is not what `before` was, in the order of the page. */
export function changesOf(before: Json, after: Json): readonly Change[] {
  const currency = isRecord(after) ? after["currency"] : null;
  const money = (value: Json | undefined): string =>
    typeof value === "number" && typeof currency === "string" && currency in MINOR_DIGITS
      ? moneyWords(value, currency as CurrencyCode) // a key of the digits
      : String(value);
  const found: Change[] = [];

  const compare = (at: string, where: string, was: Json | undefined, now: Json | undefined): void => {
    if (same(was, now)) return;
    if (Array.isArray(was) || Array.isArray(now)) return compareLists(at, where, asList(was), asList(now));
    if (isRecord(was) && isRecord(now)) {
      for (const name of new Set([...Object.keys(was), ...Object.keys(now)])) {
        const inner =
          name in LISTS
            ? `${where}${where === "" ? "" : ", "}${LISTS[name]}`
            : `${where}: ${fieldWords(name)}`;
        compare(`${at}/${name}`, inner, was[name], now[name]);
      }
      return;
    }
    const field = at.split("/").at(-1);
    if (field === "offered") {
      const place = where.replace(/: offered$/, "");
      found.push({
        pointer: at,
        says: now === false ? `${place} is taken off sale` : `${place} is on sale again`,
      });
    } else if (field === "price") {
      found.push({ pointer: at, says: `${where} ${money(was)} becomes ${money(now)}, for new orders only` });
    } else found.push({ pointer: at, says: `${where} ${shown(was)} becomes ${shown(now)}` });
  };

  const compareLists = (at: string, where: string, was: readonly Json[], now: readonly Json[]): void => {
    if (![...was, ...now].every((entry) => isRecord(entry) && typeof entry["id"] === "string")) {
      found.push({ pointer: at, says: `${where} is another list` });
      return;
    }
    const idOf = (entry: Json): Json | undefined => (isRecord(entry) ? entry["id"] : undefined);
    now.forEach((entry, index) => {
      const earlier = was.find((other) => idOf(other) === idOf(entry));
      if (earlier === undefined)
        found.push({ pointer: `${at}/${index}`, says: `${where} “${nameOf(entry)}” is new` });
      else compare(`${at}/${index}`, `${where} “${nameOf(entry)}”`, earlier, entry);
    });
    for (const entry of was) {
      if (!now.some((other) => idOf(other) === idOf(entry)))
        found.push({
          pointer: at,
          says: `${where} “${nameOf(entry)}” goes; those after it move up a number`,
        });
    }
  };

  compare("#", "", before, after);
  return found;
}

const asList = (value: Json | undefined): readonly Json[] => (Array.isArray(value) ? value : []);

const shown = (value: Json | undefined): string =>
  value === undefined ? "nothing" : typeof value === "object" ? JSON.stringify(value) : `“${value}”`;
