/** The crew's connection to a stall: its address, the key in this browser, and requests. */
import type { FairView } from "../../../model/fair/fair.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import { type Api, apiAt, type Reply } from "../kit/api.ts";
import { byId, pageData } from "../kit/dom.ts";
import { isPressKey, keyFor } from "../kit/key.ts";
import { local } from "../kit/texts-kept.ts";
import { tellTimesIn } from "./words/clock.ts";

export type Crew = {
  /** Names what this browser keeps for the stall. */
  readonly place: string;
  readonly api: Api;
  /** The link of this tablet is for a press, and does nothing else. */
  readonly pressOnly: boolean;
};

const PRESS_ONLY =
  "This tablet has a link for a press. It pulls, presses, notes what is spoiled, and counts. For this page open the crew’s link.";

/**
 * The stall of this page. Without a key the page says how to get one, and with one for a press alone that it is for the
 * press page (`forPress`); null is given then.
 */
export function openCrew(forPress?: true): Crew | null {
  const fair = pageData("fair");
  const stall = pageData("stall");
  const place = `crew ${fair}/${stall}`;
  const key = keyFor(place);
  if (key === null) {
    byId("no-key").hidden = false;
    return null;
  }
  const pressOnly = isPressKey(key);
  if (pressOnly && forPress === undefined) {
    notice(PRESS_ONLY);
    document.body.dataset["link"] = "press";
    return null;
  }
  void takeClock(fair);
  return { place, pressOnly, api: apiAt(`/v1/fairs/${fair}/stalls/${stall}`, () => key) };
}

/** Tells times by the fair's clock: the one this browser kept, and then the one the fair has now. */
async function takeClock(fair: string): Promise<void> {
  const kept = `time zone ${fair}`;
  const before = local.getItem(kept);
  if (before !== null) tellTimesIn(before);
  const { status, body } = await apiAt("/v1/fairs", () => null)(`/${fair}`);
  if (status !== 200) return;
  const { timeZone } = body as FairView; // as the route documents
  local.setItem(kept, timeZone);
  tellTimesIn(timeZone);
}

/** The menu with its settings and rules; null if there is none or it cannot be fetched. */
export async function wholeMenu(api: Api): Promise<Menu | null> {
  const { status, body } = await api("/menu/whole");
  return status === 200 ? (body as Menu | null) : null; // as the route documents
}

/** Shows that the key was refused, if it was. Returns whether it was. */
export function keyRefused({ status }: Pick<Reply, "status">): boolean {
  const refused = status === 401 || status === 403;
  byId("no-key").hidden = !refused;
  return refused;
}

/** Says something above all else, until the next thing; null takes it away. */
export function notice(text: string | null): void {
  const line = byId("notice");
  line.hidden = text === null;
  line.textContent = text ?? "";
}
