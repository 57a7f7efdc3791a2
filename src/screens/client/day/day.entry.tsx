/** @jsxImportSource preact */
/** The day so far: polls the stall, and shows its day against the plan. */
import { render } from "preact";
import type { DaySoFar } from "../../../model/accounts/day-so-far.ts";
import { keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { timeOfDay } from "../crew/words/clock.ts";
import { detailOf } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { shownOf } from "./state.ts";
import { SoFar } from "./view.tsx";

const EVERY_SECONDS = 15;

const crew = openCrew();
if (crew !== null) {
  const { api } = crew;
  const place = byId("so-far");
  poll({
    everySeconds: EVERY_SECONDS,
    look: async () => {
      const [reply, menu] = await Promise.all([api("/day-so-far"), wholeMenu(api)]);
      if (keyRefused(reply)) return true;
      if (reply.status !== 200) {
        if (reply.status !== 0) notice(detailOf(reply));
        return reply.status !== 0;
      }
      notice(null);
      const day = reply.body as DaySoFar | null; // as the route documents
      const shown = day === null ? null : shownOf(day, menu?.currency ?? "USD", timeOfDay);
      render(<SoFar shown={shown} />, place);
      return true;
    },
  });
}
