/** What else of a plan request has to change with one figure of it. */
import { type Json, rowsAt, valueAt, withValue } from "../kit/json-pointer.ts";

const PLACE = /^#\/(blanks|designs)\/\d+\/id$/;
const FOLLOWS = { blanks: "blank", designs: "design" } as const;

const DEMAND = /^(#\/offers\/\d+)\/demand$/;

/** The plan request with another value there, and whatever follows it. */
export function withFollowing(request: Json, pointer: string, now: Json | undefined): Json {
  const offer = DEMAND.exec(pointer)?.[1];
  if (offer === undefined) return renamed(request, pointer, now);
  // An offer has a share of the crowd's orders or a demand of its own, never both.
  return withValue(withValue(request, pointer, now), `${offer}/share`, now === undefined ? 0 : undefined);
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
