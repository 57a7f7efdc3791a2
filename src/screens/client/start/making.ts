/** Making a fair and its first stall: each step once, however often it is sent. */
import { nanoid } from "nanoid";
import { apiAt, detailOf, type Reply } from "../kit/api.ts";
import { session } from "../kit/texts-kept.ts";

export type Wanted = {
  readonly fair: string;
  readonly fairName: string;
  readonly stall: string;
  readonly stallName: string;
  readonly timeZone: string;
  readonly openings: readonly { readonly opens: string; readonly closes: string }[];
};
export type Made =
  | { readonly came: "made"; readonly organiser: string; readonly crew: string }
  | { readonly came: "name-taken" }
  | { readonly came: "wrong-secret" }
  | { readonly came: "refused"; readonly why: string };

const PLACE = "making a fair";

/** The keys of the two writes for these exact values, so that a reload repeats them and does not make a second fair. */
function intentFor(wanted: Wanted): { readonly fair: string; readonly stall: string } {
  const said = JSON.stringify(wanted);
  const kept = JSON.parse(session.getItem(PLACE) ?? "null") as {
    said: string;
    fair: string;
    stall: string;
  } | null; // written below
  if (kept?.said === said) return kept;
  const made = { said, fair: nanoid(), stall: nanoid() };
  session.setItem(PLACE, JSON.stringify(made));
  return made;
}

const refused = (reply: Reply): Made =>
  reply.status === 401 || reply.status === 403
    ? { came: "wrong-secret" }
    : { came: "refused", why: detailOf(reply) };

export async function make(secret: string, wanted: Wanted): Promise<Made> {
  const { fair, stall, fairName: name, stallName, timeZone, openings } = wanted;
  const once = intentFor(wanted);
  const body = { fair, name, timeZone, openings };
  const created = await apiAt("/v1", () => secret)("/fairs", { method: "POST", once: once.fair, body });
  if (created.status === 409) return { came: "name-taken" };
  if (created.status !== 201) return refused(created);
  const { key: organiser } = created.body as { key: string }; // as the route documents
  const path = `/fairs/${fair}/stalls/${stall}`;
  const added = await apiAt("/v1", () => organiser)(path, {
    method: "PUT",
    once: once.stall,
    body: { name: stallName },
  });
  if (added.status !== 200) return refused(added);
  return { came: "made", organiser, crew: (added.body as { key: string }).key }; // as the route documents
}
