/** Ways to begin an empty menu other than typing all of it: a first tee, or the menu of an earlier fair. */
import { byId, element } from "../kit/dom.ts";
import { type Json, valueAt, withValue } from "../kit/json-pointer.ts";
import { local } from "../kit/texts-kept.ts";
import { knownStalls, linkParts, menuOf } from "./copying.ts";
import { newBlank } from "./form/adding.ts";

export function beginnings(place: string, begin: (menu: Json) => void, menu: () => Json): void {
  const say = (text: string): void => {
    byId("copy-said").textContent = text;
  };
  async function copy(from: string, key: string): Promise<void> {
    say("Reading it…");
    const copied = await menuOf(from, key);
    if ("why" in copied) return say(`It could not be read: ${copied.why}`);
    say("");
    begin(copied.menu as Json); // a menu is JSON
  }
  byId("begin-tee").addEventListener("click", () =>
    begin(withValue(menu(), "#/blanks", [newBlank(menu(), "Tee")])),
  );
  byId("copy").addEventListener("click", () => {
    const parts = linkParts(byId<HTMLInputElement>("copy-link").value);
    if (parts === null) return say("That is no crew link. It looks like https://…/crew/FAIR/STALL#key=…");
    void copy(`${parts.fair}/${parts.stall}`, parts.key);
  });
  byId("copy-known").replaceChildren(
    ...knownStalls(place).map(({ place: other, key }) =>
      element("button", { type: "button", onclick: () => void copy(other, key) }, `Copy from ${other}`),
    ),
  );
  // The currency that was asked for when the stall was made.
  const asked = local.getItem(`currency ${place}`);
  if (asked !== null && valueAt(menu(), "#/blanks/0") === undefined)
    begin(withValue(menu(), "#/currency", asked));
  local.removeItem(`currency ${place}`);
}
