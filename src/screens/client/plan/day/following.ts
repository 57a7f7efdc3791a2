/** Changes that follow from one changed figure of a day. */
import { isRecord, type Json, rowsAt, valueAt, withValue } from "../../kit/json-pointer.ts";
import { wordAt } from "../groups/names.ts";
import type { Day } from "./first.ts";
import { withHours } from "./hours.ts";
import { withDesigns } from "./parts.ts";

const DEMAND = /^(#\/offers\/\d+)\/demand$/;

/** The day with another value in one of its parts, and whatever follows it; with what else moved, in words. */
export function withFollowing(
  day: Day,
  part: keyof Day,
  pointer: string,
  now: Json | undefined,
): { readonly day: Day; readonly says: string | null } {
  if (part !== "plan") return { day: { ...day, [part]: withValue(day[part], pointer, now) }, says: null };
  if (pointer === "#/opens" || pointer === "#/closes") {
    const { request, says } = withHours(day.plan, pointer, now);
    return { day: { ...day, plan: request }, says };
  }
  const design = DESIGN.exec(pointer)?.[1];
  const before = valueAt(day.plan, pointer);
  // The sheets know a design by its short name.
  const at = rowsAt(day.sheets, "#/designs").findIndex((row) => valueAt(row, "#/id") === before);
  const sheets =
    design !== undefined && now !== undefined && at >= 0
      ? withValue(day.sheets, `#/designs/${at}/id`, now)
      : day.sheets;
  return { day: withDesigns({ ...day, sheets, plan: planWith(day.plan, pointer, now) }), says: null };
}

const LIKELY = /^(#\/.+)\/likely$/;

/** 4200 or "3.6 %" as a figure and its unit; null for anything else. */
function figureOf(value: Json | undefined): { readonly value: number; readonly unit: string } | null {
  const [, figure, unit = ""] = /^(\d+(?:\.\d+)?)\s*(%?)$/.exec(String(value).trim()) ?? [];
  return figure === undefined ? null : { value: Number(figure), unit };
}

const DESIGN = /^#\/designs\/(\d+)\/id$/;

/** Low and high of a range keep their distance from the likely figure, as parts of it. */
function planWith(request: Json, pointer: string, now: Json | undefined): Json {
  const range = LIKELY.exec(pointer)?.[1];
  const [before, after] = [figureOf(valueAt(request, pointer)), figureOf(now)];
  if (range !== undefined && before !== null && after !== null && before.value > 0) {
    return ["low", "high"].reduce(
      (all: Json, end) => {
        const figure = figureOf(valueAt(all, `${range}/${end}`));
        if (figure === null) return all;
        const moved = Number(((figure.value * after.value) / before.value).toPrecision(3));
        return withValue(all, `${range}/${end}`, figure.unit === "" ? moved : `${moved} ${figure.unit}`);
      },
      withValue(request, pointer, now),
    );
  }
  const offer = DEMAND.exec(pointer)?.[1];
  if (offer === undefined) return renamed(request, pointer, now);
  // An offer has a share of the crowd's orders or a demand of its own, never both.
  return withValue(withValue(request, pointer, now), `${offer}/share`, now === undefined ? 1 : undefined);
}

const LISTS = {
  blanks: "blank",
  designs: "design",
  offers: "offer",
  colours: "colour",
  sizes: "size",
} as const;

/**
 * The plan request with another short name of a blank, design, offer, colour or size. Every row that names it follows:
 * offers, skus, printed garments, and what earlier fairs taught.
 */
function renamed(request: Json, pointer: string, now: Json | undefined): Json {
  const [, list = "", at = "", inner = ""] =
    /^#\/(blanks|designs|offers)\/(\d+)(?:\/(colours|sizes)\/\d+)?\/id$/.exec(pointer) ?? [];
  const before = valueAt(request, pointer);
  const changed = withValue(request, pointer, now);
  if (list === "" || typeof before !== "string" || typeof now !== "string") return changed;
  const key = LISTS[(inner || list) as keyof typeof LISTS]; // the expression's own words
  // A colour or size is one of its own blank.
  const blank = inner === "" ? null : wordAt(request, `#/blanks/${at}/id`);
  const blankOf = new Map(
    rowsAt(request, "#/offers").map((row) => [wordAt(row, "#/id"), wordAt(row, "#/blank")]),
  );
  const place = ["blank", "colour", "size"].indexOf(key);
  const skuWith = (sku: string): string => {
    const parts = sku.split(".");
    const mine = parts[place] === before && (blank === null || parts[0] === blank);
    return mine ? parts.map((part, index) => (index === place ? now : part)).join(".") : sku;
  };
  const follow = (value: Json): Json => {
    if (Array.isArray(value)) return value.map(follow);
    if (!isRecord(value)) return value;
    const own = valueAt(value, "#/blank") ?? blankOf.get(wordAt(value, "#/offer"));
    const isMine = blank === null || own === blank;
    return Object.fromEntries(
      Object.entries(value).map(([name, one]): [string, Json] => {
        if (name === "sku" && place >= 0 && typeof one === "string") return [name, skuWith(one)];
        if (name === key && one === before && isMine) return [name, now];
        // An offer's own choice of colours or sizes is a list of short names.
        if (name === inner && isMine && Array.isArray(one) && one.includes(before))
          return [name, one.map((each: Json) => (each === before ? now : each))];
        return [name, follow(one)];
      }),
    );
  };
  return ["offers", "skus", "ready", "lessons"].reduce((all, name) => {
    const rows = valueAt(all, `#/${name}`);
    return rows === undefined ? all : withValue(all, `#/${name}`, follow(rows));
  }, changed);
}
