/** "Try it": a rehearsal of the menu as it was saved, on the press screen with a customer's phone beside it. */
import { nanoid } from "nanoid";
import { notice } from "../../crew/crew.ts";
import { type Api, detailOf } from "../../kit/api.ts";
import { byId } from "../../kit/dom.ts";
import { keepKey } from "../../kit/key.ts";

export function tryButton(api: Api, fair: string): void {
  let once = nanoid();
  const button = byId<HTMLButtonElement>("try");
  // Until here a tap would have been lost: the shell has it disabled.
  button.disabled = false;
  button.addEventListener("click", async () => {
    const reply = await api("/rehearsal", { method: "POST", body: {}, once });
    if (reply.status !== 200) {
      // An answer was recorded under this key; the next tap is a new wish.
      if (reply.status !== 0) once = nanoid();
      return notice(
        reply.status === 409 ? "There is nothing to try yet: save a menu first." : detailOf(reply),
      );
    }
    const { stall, key } = reply.body as { stall: string; key: string }; // as the route documents
    keepKey(`crew ${fair}/${stall}`, key);
    location.assign(`/crew/${fair}/${stall}`);
  });
}
