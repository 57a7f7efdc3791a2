/**
 * The fair's name, clock and hours on the organiser's page: typed values stay until they are saved, also through a
 * reload.
 */
import { nanoid } from "nanoid";
import type { Problem } from "../../../model/basics/problem.ts";
import type { FairView } from "../../../model/fair/fair.ts";
import { detailOf, type Reply, type Request } from "../kit/api.ts";
import { byId, element } from "../kit/dom.ts";
import { merge } from "../kit/merging.ts";
import { local } from "../kit/texts-kept.ts";
import { dayRows, showZones } from "./day-rows.ts";
import { type Day, dayOf } from "./days.ts";

type Api = (path: string, request?: Request) => Promise<Reply>;

/** The parts of a fair that can change. */
type Changeable = Pick<FairView, "name" | "timeZone" | "openings">;
/** The fair as it was read, with its tag, and the typed changes. */
type Kept = {
  readonly base: Changeable;
  readonly tag: string | null;
  readonly typed: { readonly name: string; readonly zone: string; readonly days: readonly Day[] };
};

const PARTS = { "#/name": "the name", "#/timeZone": "the clock", "#/openings": "the days" } as const;

const OVER =
  "All these days are in the past. Is the fair over? Then the stalls close, and names and numbers are erased some days after the last closing.";

const entry = (id: string): HTMLInputElement => byId<HTMLInputElement>(id);

/** Sets the form up; gives what reads the fair and shows it. */
export function hours(
  fair: string,
  api: Api,
  say: (text: string | null) => void,
): { readonly look: () => Promise<void> } {
  const place = `hours ${fair}`;
  let read: Pick<Kept, "base" | "tag"> | null = null;
  let once = nanoid();
  const rows = dayRows(() => changed());
  showZones();

  function changed(): void {
    // What is changed is another write than the one that may have got lost.
    once = nanoid();
    byId("hours-said").textContent = "Not saved yet.";
    if (read === null) return;
    const typed = { name: entry("fair-name-now").value, zone: entry("zone").value, days: rows.typed() };
    local.setItem(place, JSON.stringify({ ...read, typed } satisfies Kept));
  }
  for (const id of ["fair-name-now", "zone"]) entry(id).addEventListener("input", changed);

  function show({ name, zone, days }: Kept["typed"]): void {
    entry("fair-name-now").value = name;
    byId("title").textContent = `Settings of ${name}`;
    const known = [...byId<HTMLSelectElement>("zone").options].some(({ value }) => value === zone);
    if (!known) byId("zone").append(element("option", {}, zone));
    entry("zone").value = zone;
    rows.show(days);
  }
  const showFair = ({ name, timeZone, openings }: Changeable): void =>
    show({
      name,
      zone: timeZone,
      days: openings.map(({ opens, closes }) => dayOf(timeZone, opens, closes)),
    });

  async function fetched(): Promise<Pick<Kept, "base" | "tag"> | null> {
    const reply = await api("");
    if (reply.status !== 200) {
      say(detailOf(reply));
      return null;
    }
    const { name, timeZone, openings } = reply.body as FairView; // as the route documents
    const written = (instant: string): string => new Date(instant).toISOString();
    // Written as the form writes them, so that an unchanged value is not taken for a change.
    const days = openings.map(({ opens, closes }) => ({ opens: written(opens), closes: written(closes) }));
    return { base: { name, timeZone, openings: days }, tag: reply.tag };
  }

  async function look(): Promise<void> {
    const text = local.getItem(place);
    if (text !== null) {
      const kept = JSON.parse(text) as Kept; // written above only
      read = kept;
      show(kept.typed);
      byId("hours-said").textContent = "Not saved yet.";
      return;
    }
    read = await fetched();
    if (read !== null) showFair(read.base);
  }

  /**
   * Somebody else saved: their changes are taken over; where both changed a value, mine stays and the collision is
   * shown.
   */
  async function bringTogether(mine: Changeable): Promise<void> {
    const theirs = await fetched();
    if (theirs === null || read === null) return;
    const { menu, collisions } = merge(read.base, mine, theirs.base);
    read = theirs;
    showFair(menu as Changeable); // of three fairs comes a fair
    changed();
    const both = collisions.map(({ pointer }) => PARTS[pointer as keyof typeof PARTS]); // the fair's own parts
    const clash = both.length === 0 ? "" : ` You both changed ${both.join(" and ")}: yours stands.`;
    say(`Somebody else changed the fair meanwhile, and that is in here now.${clash} Look, and save again.`);
  }

  byId("hours-form").addEventListener("submit", async (event) => {
    event.preventDefault();
    if (read === null) return say("The fair could not be read yet. Load this page again with a signal.");
    const name = entry("fair-name-now").value.trim();
    if (name === "") return say("Give the fair a name.");
    const timeZone = entry("zone").value;
    const openings = rows.openings(timeZone);
    if (openings === null) return say("Fix the fields marked below.");
    const mine = { name, timeZone, openings: [...openings] };
    const match = read.tag === null ? {} : { match: read.tag };
    let reply = await api("", { method: "PUT", once, body: mine, ...match });
    if ((reply.body as Problem | null)?.type === "/problems/last-closing-past") {
      if (!confirm(OVER)) return say("Nothing was changed. Check the days, and save again.");
      once = nanoid();
      reply = await api("", { method: "PUT", once, body: { ...mine, over: true }, ...match });
    }
    if (reply.status === 412) return bringTogether(mine);
    if (reply.status !== 200) {
      const faults = (reply.body as Problem | null)?.errors?.map(({ detail }) => detail) ?? [];
      return say([detailOf(reply), ...faults, "Nothing you typed is lost."].join(" "));
    }
    local.removeItem(place);
    say(null);
    await look();
    byId("hours-said").textContent = "Saved. Every stall has it.";
    return undefined;
  });
  return { look };
}
