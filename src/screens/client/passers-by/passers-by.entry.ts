/** Counting passers-by: one big button, a clock, and a count that is sent once. */
import { nanoid } from "nanoid";
import { keyRefused, notice, openCrew } from "../crew/crew.ts";
import { type Api, detailOf } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";
import { local } from "../kit/texts-kept.ts";
import { clockWords, secondsOf, tapped, type Watch } from "./watch.ts";

function start(api: Api, place: string): void {
  const keep = `watch ${place}`;
  const kept = local.getItem(keep);
  let watch = kept === null ? null : (JSON.parse(kept) as Watch); // written below only
  let sending = false;

  const show = (): void => {
    const seconds = watch === null ? 0 : secondsOf(watch, Date.now());
    byId("seen").textContent = String(watch?.people ?? 0);
    byId("watched").textContent = clockWords(seconds);
    const over = watch?.ended != null;
    byId<HTMLButtonElement>("one").disabled = over;
    byId<HTMLButtonElement>("less").disabled = over || watch === null || watch.people === 0;
    byId<HTMLButtonElement>("done").disabled = watch === null || sending;
    byId("done").textContent = over ? "Send it again" : "Save count";
    byId<HTMLButtonElement>("drop").disabled = watch === null || sending;
  };
  const change = (to: Watch | null): void => {
    watch = to;
    if (to === null) local.removeItem(keep);
    else local.setItem(keep, JSON.stringify(to));
    show();
  };

  const send = async (): Promise<void> => {
    if (watch === null || sending) return;
    const ended = watch.ended ?? { seconds: secondsOf(watch, Date.now()), once: nanoid() };
    const { people } = watch;
    sending = true;
    change({ ...watch, ended });
    const body = { people, seconds: ended.seconds };
    const reply = await api("/passers-by", { method: "POST", body, once: ended.once });
    sending = false;
    if (reply.status === 200) {
      change(null);
      const all = reply.body as { readonly people: number; readonly seconds: number }; // as the route documents
      byId("so-far").textContent =
        `Kept. This day so far: ${all.people} people in ${clockWords(all.seconds)} of watching.`;
      return notice(null);
    }
    show();
    if (!keyRefused(reply)) notice(`${detailOf(reply)} The count is kept on this tablet.`);
  };

  const tap = (by: 1 | -1) => () => {
    if (watch?.ended == null) change(tapped(watch, by, Date.now()));
  };
  byId("one").addEventListener("click", tap(1));
  byId("less").addEventListener("click", tap(-1));
  byId("done").addEventListener("click", () => void send());
  byId("drop").addEventListener("click", () => change(null));
  window.addEventListener("online", () => {
    if (watch?.ended != null) void send();
  });
  setInterval(show, 1000);
  byId("watch").hidden = false;
  show();
}

const crew = openCrew();
if (crew !== null) start(crew.api, crew.place);
