/** @jsxImportSource preact */
/** The organiser's word on the page: what was said to the stalls, and which of them have it. */
import { nanoid } from "nanoid";
import { render } from "preact";
import type { OrganiserNews } from "../../../../model/fair/organising.ts";
import type { Throughput } from "../../../../model/fair/throughput.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { type Api, detailOf, type Reply, type Request } from "../../kit/api.ts";
import { byId } from "../../kit/dom.ts";
import { OrganiserWord, type WordActions, type WordState } from "./view.tsx";

/** Returns the function to call with each poll of the fair. */
export function organiserWord(
  api: Api,
  fair: () => Pick<Throughput, "stalls" | "timeZone"> | undefined,
): () => Promise<void> {
  let state: WordState = { news: { stop: null, announcements: [], untold: [] }, said: null, busy: false };

  const change = (more: Partial<WordState>): void => {
    state = { ...state, ...more };
    const { stalls = [], timeZone } = fair() ?? {};
    render(
      <OrganiserWord
        {...state}
        stalls={stalls}
        clock={(instant) => timeOfDay(instant, timeZone)}
        actions={actions}
      />,
      byId("organiser-word"),
    );
  };
  const heard = ({ status, body }: Reply): void => {
    if (status === 200) change({ news: body as OrganiserNews }); // as the route documents
  };
  const look = async (): Promise<void> => heard(await api("/announcements"));
  const does = async (path: string, request: Request, said: string): Promise<void> => {
    change({ busy: true, said: null });
    // Sent again after no answer it is the same write.
    const write = { ...request, once: nanoid() };
    let reply = await api(path, write);
    if (reply.status === 0) reply = await api(path, write);
    change({ busy: false, said: reply.status < 300 && reply.status > 0 ? said : detailOf(reply) });
    await look();
  };
  const actions: WordActions = {
    stop: (stop) =>
      void does(
        "/order-stop",
        { method: "PUT", body: { stop } },
        stop === null ? "The stalls go on." : "All orders are stopped.",
      ),
    announce: (text, stalls) =>
      void does(
        "/announcements",
        { method: "POST", body: stalls === null ? { text } : { text, stalls } },
        "Sent to the crews.",
      ),
    takeBack: (id) => void does(`/announcements/${id}`, { method: "DELETE" }, "Taken back."),
  };
  return look;
}
