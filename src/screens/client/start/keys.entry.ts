/** The organiser's settings: the fair's name and hours, new keys, and further stalls. */

import { nanoid } from "nanoid";
import type { Throughput } from "../../../model/fair/throughput.ts";
import { apiAt, detailOf } from "../kit/api.ts";
import { byId, element, pageData } from "../kit/dom.ts";
import { keepKey, keyFor } from "../kit/key.ts";
import { spellIn, spelt } from "../kit/spelling.ts";
import { session } from "../kit/texts-kept.ts";
import { hours } from "./hours.ts";
import { keyCard } from "./key-card.ts";
import { slugOf, unique } from "./short-name.ts";

spellIn(navigator.language);

const fair = pageData("fair");
const reach = session.getItem("reach") ?? location.origin;
let key = keyFor(`organiser ${fair}`);
const api = apiAt(`/v1/fairs/${fair}`, () => key);

function say(text: string | null): void {
  byId("trouble").hidden = text === null;
  byId("trouble").textContent = text ?? "";
}

const overlap = (): number => Number(byId<HTMLSelectElement>("overlap").value);

/** Asks before a key stops at once: every device that has the old link stops with it. */
const mayStop = (whose: string, overlapMinutes: number): boolean =>
  overlapMinutes > 0 ||
  confirm(`Stop the old key at once? ${whose} must open the new link before they can go on.`);

function showKey(title: string, says: string, path: string, made: string): void {
  byId("cards").replaceChildren(keyCard({ heading: "h2", title, says, link: `${reach}${path}#key=${made}` }));
  byId("cards").scrollIntoView({ block: "start" });
}

const theHours = hours(fair, api, say);

let intent = { for: "", once: "" };
/** The same button on a dead network sends the same write again. */
function onceFor(what: string): string {
  if (intent.for !== what) intent = { for: what, once: nanoid() };
  return intent.once;
}

async function newCrewKey(stall: string, name: string): Promise<void> {
  const overlapMinutes = overlap();
  if (!mayStop(`All of ${name}'s devices`, overlapMinutes)) return undefined;
  const once = onceFor(`${stall} ${overlapMinutes}`);
  const reply = await api(`/stalls/${stall}/key`, { method: "POST", once, body: { overlapMinutes } });
  if (reply.status !== 200) return say(detailOf(reply));
  intent = { for: "", once: "" };
  say(null);
  const { key: made } = reply.body as { key: string }; // as the route documents
  keepKey(`crew ${fair}/${stall}`, made);
  const old =
    overlapMinutes === 0
      ? "The old key has stopped."
      : `The old key still works for ${overlapMinutes} minutes.`;
  showKey(
    `${name}: new crew key`,
    `${old} Open this on each of the stall's devices.`,
    `/crew/${fair}/${stall}`,
    made,
  );
}

/** Shows the link of the stall's presses; no key stops by that. */
async function showPressLink(stall: string, name: string): Promise<void> {
  const reply = await api(`/stalls/${stall}`, { method: "PUT", once: nanoid(), body: { name } });
  if (reply.status !== 200) return say(detailOf(reply));
  say(null);
  const { pressKey } = reply.body as { pressKey: string }; // as the route documents
  showKey(
    `${name}: press link`,
    "It pulls, presses, notes what is spoiled, and counts. It cannot refund, discount, change prices or close. It stops with the crew key.",
    `/crew/${fair}/${stall}`,
    pressKey,
  );
}

async function look(): Promise<void> {
  const reply = await api("/throughput");
  if (reply.status !== 200) {
    say(
      reply.status === 401 || reply.status === 403
        ? spelt(
            "This page needs the organiser's key. Open the organiser's link once in this browser; if it is lost, make a new one below with the owner's secret.",
          )
        : detailOf(reply),
    );
    return;
  }
  const { stalls } = reply.body as Throughput; // as the route documents
  byId("stalls").replaceChildren(
    ...stalls.map(({ stall, name }) =>
      element(
        "li",
        { class: "row apart" },
        element("b", {}, name),
        element(
          "button",
          { type: "button", onclick: () => void newCrewKey(stall, name) },
          `New crew key for ${name}`,
        ),
        element(
          "button",
          { type: "button", onclick: () => void showPressLink(stall, name) },
          `Press link for ${name}`,
        ),
      ),
    ),
  );
  byId("add-form").onsubmit = async (event) => {
    event.preventDefault();
    const field = byId<HTMLInputElement>("add-name");
    const name = field.value.trim();
    if (name === "") return say("Give the stall a name.");
    const stall = unique(
      slugOf(name) ?? "stall",
      stalls.map((one) => one.stall),
    );
    const added = await api(`/stalls/${stall}`, {
      method: "PUT",
      once: onceFor(`add ${stall}`),
      body: { name },
    });
    if (added.status !== 200) return say(detailOf(added));
    intent = { for: "", once: "" };
    say(null);
    field.value = "";
    const { key: made } = added.body as { key: string }; // as the route documents
    keepKey(`crew ${fair}/${stall}`, made);
    await look();
    showKey(`${name}: crew key`, "Open this on the stall's devices.", `/crew/${fair}/${stall}`, made);
    return undefined;
  };
}

byId("organiser-form").addEventListener("submit", async (event) => {
  event.preventDefault();
  const secret = byId<HTMLInputElement>("secret").value.trim();
  if (secret === "") return say("Type the owner's secret: OWNER_SECRET of this deployment.");
  const owner = apiAt(`/v1/fairs/${fair}`, () => secret);
  const overlapMinutes = overlap();
  if (!mayStop(spelt("All who have the organiser's link"), overlapMinutes)) return undefined;
  const reply = await owner("/key", {
    method: "POST",
    once: onceFor(`organiser ${overlapMinutes}`),
    body: { overlapMinutes },
  });
  if (reply.status !== 200) return say(detailOf(reply));
  intent = { for: "", once: "" };
  say(null);
  byId<HTMLInputElement>("secret").value = "";
  const { key: made } = reply.body as { key: string }; // as the route documents
  key = made;
  keepKey(`organiser ${fair}`, made);
  await look();
  showKey(
    spelt("The organiser's new key"),
    spelt("Open it once in the organiser's browser."),
    `/fair/${fair}`,
    made,
  );
  return undefined;
});

void theHours.look();
void look();
