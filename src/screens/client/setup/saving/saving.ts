/** Saves the menu once, on top of the one it started from, and words the result. */
import { nanoid } from "nanoid";
import type { Fault } from "../../../../model/basics/faults.ts";
import { type Api, detailOf } from "../../kit/api.ts";
import type { Json } from "../../kit/json-pointer.ts";

export type SaveOutcome =
  | { readonly came: "saved"; readonly tag: string | null }
  | { readonly came: "faults"; readonly faults: readonly Fault[] }
  /** Somebody else has saved since. */
  | { readonly came: "changed"; readonly theirs: Json; readonly tag: string | null }
  | { readonly came: "unanswered" }
  | { readonly came: "refused"; readonly why: string; readonly status: number };

const faultsIn = (body: unknown): readonly Fault[] =>
  typeof body === "object" && body !== null && "errors" in body ? (body.errors as readonly Fault[]) : []; // a Problem's own

/** Sends saves; the same menu sent again is the same write, so that a lost answer cannot save it twice. */
export function saver(api: Api): (menu: Json, tag: string | null) => Promise<SaveOutcome> {
  let intent = { said: "", once: "" };
  return async (menu, tag) => {
    const said = JSON.stringify([menu, tag]);
    if (intent.said !== said) intent = { said, once: nanoid() };
    const match = tag === null ? {} : { match: tag };
    const reply = await api("/menu", { method: "PUT", body: menu, once: intent.once, ...match });
    if (reply.status === 200) return { came: "saved", tag: reply.tag };
    if (reply.status === 412) {
      const now = await api("/menu/whole");
      if (now.status !== 200) return { came: "unanswered" };
      return { came: "changed", theirs: now.body as Json, tag: now.tag }; // as the route documents
    }
    if (reply.status === 0 || reply.status >= 500) return { came: "unanswered" };
    const faults = faultsIn(reply.body);
    if (faults.length > 0) return { came: "faults", faults };
    return { came: "refused", why: detailOf(reply), status: reply.status };
  };
}
