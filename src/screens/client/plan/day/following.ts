/** Changes that follow from one changed figure of a day. */
import { type Json, rowsAt, valueAt, withValue } from "../../kit/json-pointer.ts";
import type { Day } from "./first.ts";
import { withHours } from "./hours.ts";
import { withDesigns } from "./parts.ts";

const PLACE = /^#\/(blanks|designs)\/\d+\/id$/;
const FOLLOWS = { blanks: "blank", designs: "design" } as const;

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

/** The plan request with another short name of a blank or design: its offers, and a blank's skus, follow. */
function renamed(request: Json, pointer: string, now: Json | undefined): Json {
  const list = PLACE.exec(pointer)?.[1];
  const before = valueAt(request, pointer);
  const changed = withValue(request, pointer, now);
  if ((list !== "blanks" && list !== "designs") || typeof before !== "string" || typeof now !== "string")
    return changed;
  const follow = (from: Json, place: string, of: (old: string) => string | null): Json => {
    const old = valueAt(from, place);
    const next = typeof old === "string" ? of(old) : null;
    return next === null ? from : withValue(from, place, next);
  };
  const offers = rowsAt(changed, "#/offers").reduce(
    (all: Json, _, at) =>
      follow(all, `#/offers/${at}/${FOLLOWS[list]}`, (old) => (old === before ? now : null)),
    changed,
  );
  if (list === "designs") return offers;
  return rowsAt(offers, "#/skus").reduce(
    (all: Json, _, at) =>
      follow(all, `#/skus/${at}/sku`, (old) =>
        old.startsWith(`${before}.`) ? now + old.slice(before.length) : null,
      ),
    offers,
  );
}
