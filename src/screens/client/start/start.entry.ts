/** The first run: asks for the fair, the stall and the currency, makes them, and shows their keys once. */

import { byId } from "../kit/dom.ts";
import { keepKey } from "../kit/key.ts";
import { spellIn, spelt } from "../kit/spelling.ts";
import { local, session } from "../kit/texts-kept.ts";
import { asking, forget } from "./asking.ts";
import { keyCard } from "./key-card.ts";
import { make } from "./making.ts";

spellIn(navigator.language);

const SECRET = "owner secret";

/** From the link: the owner's secret, and this computer's address for other devices. */
function brought(): { readonly secret: string | null; readonly reach: string } {
  const parts = new URLSearchParams(location.hash.slice(1));
  const secret = parts.get("owner");
  const reach = parts.get("reach");
  if (secret !== null) session.setItem(SECRET, secret);
  if (reach !== null) session.setItem("reach", reach);
  if (location.hash !== "") history.replaceState(null, "", location.pathname);
  return {
    secret: session.getItem(SECRET),
    reach: session.getItem("reach") ?? location.origin,
  };
}

const { secret: known, reach } = brought();
const form = asking();
const secretField = byId<HTMLInputElement>("secret");
byId("secret-part").hidden = known !== null;

function say(text: string | null): void {
  byId("trouble").hidden = text === null;
  byId("trouble").textContent = text ?? "";
}

byId("first").addEventListener("submit", async (event) => {
  event.preventDefault();
  const secret = known ?? secretField.value.trim();
  byId("secret-fault").textContent =
    secret === "" ? "Type the owner's secret: OWNER_SECRET, as it was set for this deployment." : "";
  if (secret === "") return secretField.focus();
  const asked = form.read();
  if (asked === null) return say("Fix the fields marked below.");
  const button = byId<HTMLButtonElement>("make");
  button.disabled = true;
  const made = await make(secret, asked.wanted);
  button.disabled = false;
  const { fair, stall } = asked.wanted;
  switch (made.came) {
    case "name-taken":
      byId<HTMLDetailsElement>("short").open = true;
      form.say("fair", "There is a fair of this short name here already; pick another.");
      byId("fair").focus();
      return say("That short name is taken. Nothing was made yet, and nothing you typed is lost.");
    case "wrong-secret":
      byId("secret-part").hidden = false;
      byId("secret-fault").textContent = "This is not the owner's secret of this deployment.";
      return say("The owner's secret does not fit. Nothing was made yet.");
    case "refused":
      return say(`${made.why} Nothing you typed is lost.`);
    case "made":
      break;
    default:
      return made satisfies never;
  }
  say(null);
  keepKey(`crew ${fair}/${stall}`, made.crew);
  keepKey(`organiser ${fair}`, made.organiser);
  local.setItem(`currency crew ${fair}/${stall}`, asked.currency);
  forget();
  const at = `${reach}/crew/${fair}/${stall}`;
  byId("cards").replaceChildren(
    keyCard({
      heading: "h3",
      title: "The crew's tablet: press",
      says: "Open it on the tablet beside the press.",
      link: `${at}#key=${made.crew}`,
    }),
    keyCard({
      heading: "h3",
      title: "The crew's phone: counter",
      says: "Open it where orders are taken, paid and handed over.",
      link: `${at}/counter#key=${made.crew}`,
    }),
    keyCard({
      heading: "h3",
      title: spelt("The organiser"),
      says: "For whoever runs the fair: every stall's pace, and new keys.",
      link: `${reach}/fair/${fair}#key=${made.organiser}`,
    }),
  );
  byId<HTMLAnchorElement>("go-on").href = `/crew/${fair}/${stall}/setup`;
  byId<HTMLAnchorElement>("go-keys").href = `/fair/${fair}/keys`;
  byId("first").hidden = true;
  byId("keys").hidden = false;
  byId("keys-title").focus();
  return undefined;
});
