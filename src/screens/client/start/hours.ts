/** The fair's name, clock and hours on the organiser's page: what was typed stays until it is saved. */
import { nanoid } from "nanoid";
import type { FairView } from "../../../model/fair.ts";
import type { Problem } from "../../../model/problem.ts";
import { detailOf, type Reply, type Request } from "../kit/api.ts";
import { byId, element } from "../kit/dom.ts";
import { dayRows, showZones } from "./day-rows.ts";
import { dayOf } from "./days.ts";

type Api = (path: string, request?: Request) => Promise<Reply>;

const entry = (id: string): HTMLInputElement => byId<HTMLInputElement>(id);

/** Sets the form up; gives what reads the fair and shows it. */
export function hours(api: Api, say: (text: string | null) => void): { readonly look: () => Promise<void> } {
  let tag: string | null = null;
  let once = nanoid();
  const changed = (): void => {
    // What is changed is another write than the one that may have got lost.
    once = nanoid();
    byId("hours-said").textContent = "Not saved yet.";
  };
  const rows = dayRows(changed);
  showZones();
  for (const id of ["fair-name-now", "zone"]) entry(id).addEventListener("input", changed);

  async function look(): Promise<void> {
    const reply = await api("");
    if (reply.status !== 200) return say(detailOf(reply));
    const { name, timeZone, openings } = reply.body as FairView; // as the route documents
    tag = reply.tag;
    entry("fair-name-now").value = name;
    const known = [...byId<HTMLSelectElement>("zone").options].some(({ value }) => value === timeZone);
    if (!known) byId("zone").append(element("option", {}, timeZone));
    entry("zone").value = timeZone;
    rows.show(openings.map(({ opens, closes }) => dayOf(timeZone, opens, closes)));
    byId("hours-said").textContent = "";
    once = nanoid();
  }

  byId("hours-form").addEventListener("submit", async (event) => {
    event.preventDefault();
    const name = entry("fair-name-now").value.trim();
    if (name === "") return say("Give the fair a name.");
    const timeZone = entry("zone").value;
    const openings = rows.openings(timeZone);
    if (openings === null) return say("Something is still missing; it is told where it is.");
    const reply = await api("", {
      method: "PUT",
      once,
      body: { name, timeZone, openings },
      ...(tag === null ? {} : { match: tag }),
    });
    if (reply.status === 412) {
      byId("hours-again").hidden = false;
      return say(
        "Somebody else changed the fair meanwhile. Nothing of yours is saved or lost: see how it is now.",
      );
    }
    if (reply.status !== 200) {
      const faults = (reply.body as Problem | null)?.errors?.map(({ detail }) => detail) ?? [];
      return say([detailOf(reply), ...faults, "Nothing you typed is lost."].join(" "));
    }
    say(null);
    await look();
    byId("hours-said").textContent = "Saved. Every stall has it.";
    return undefined;
  });
  byId("hours-again").addEventListener("click", () => {
    byId("hours-again").hidden = true;
    say(null);
    void look();
  });
  return { look };
}
