/** Entering the stall's new address, and undoing it. */
import { nanoid } from "nanoid";
import type { MovedTo } from "../../../model/accounts/moved.ts";
import { type Api, detailOf } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";

/** The customers' page that a link names: a link to one of the stall's crew pages will do, without its key. Null if it is neither. */
export function orderPageOf(link: string): string | null {
  const url = URL.parse(link.trim());
  const place = /^\/(?:at|crew)\/([a-z0-9-]+)\/([a-z0-9-]+)(?:\/|$)/.exec(url?.pathname ?? "");
  if (url === null || place === null || !/^https?:$/.test(url.protocol)) return null;
  return `${url.origin}/at/${place[1]}/${place[2]}`;
}

export function movedAway(api: Api, say: (text: string | null) => void): void {
  const [field, fault] = [byId<HTMLInputElement>("moved-to"), byId("moved-fault")];
  const shell = byId("moved-now").textContent;
  const show = (to: string | null): void => {
    byId("moved-now").textContent = to === null ? shell : `This address sends people on to ${to}.`;
    byId("moved-undo").hidden = to === null;
    field.value = to ?? field.value;
  };
  const save = async (to: string | null, says: string): Promise<void> => {
    const reply = await api("/moved", { method: "PUT", body: { to }, once: nanoid() });
    fault.textContent = reply.status === 200 ? "" : detailOf(reply);
    if (reply.status !== 200) return;
    show((reply.body as MovedTo).to); // as the route documents
    say(says);
  };
  byId("moved-form").addEventListener("submit", (event) => {
    event.preventDefault();
    const to = orderPageOf(field.value);
    if (to === null) fault.textContent = "Paste the link to the stall’s order page, https://…/at/fair/stall.";
    else void save(to, "From now on this address sends people on.");
  });
  byId("moved-undo").addEventListener("click", () => void save(null, "The stall is here again."));
  void api("/moved").then(({ status, body }) => {
    if (status === 200) show((body as MovedTo).to); // as the route documents
  });
}
