/** @jsxImportSource preact */
/** The organiser's word above a crew's page: a stop of all orders, and announcements until they are read. */
import { nanoid } from "nanoid";
import { render } from "preact";
import type { QueueView } from "../../../model/orders/queue.ts";
import type { Api } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";
import { timeOfDay } from "./words/clock.ts";

type Said = Pick<QueueView, "fairStop" | "announcements">;

function OrganiserPart({
  fairStop,
  announcements = [],
  read,
}: Said & { readonly read: (id: string) => void }) {
  return (
    <>
      {fairStop ? (
        <p class="notice" role="alert">
          <span>
            The fair has stopped all orders since {timeOfDay(fairStop.since)}: {fairStop.reason}.{" "}
            {fairStop.pressing
              ? "Finish what is on a press, and press nothing else."
              : "Go on pressing what was ordered."}
          </span>
        </p>
      ) : null}
      {announcements.map(({ id, text, at }) => (
        <div class="notice needs-you" role="status" key={id}>
          <p>
            From the fair, {timeOfDay(at)}: {text}
          </p>
          <button type="button" onClick={() => read(id)}>
            Read
          </button>
        </div>
      ))}
    </>
  );
}

/**
 * Shows the word from the queue. An announcement marked as read is hidden at once; the tap is sent until the stall has
 * it.
 */
export function organiserPart(api: Api): (queue: Said) => void {
  const tapped = new Set<string>();
  let seen: Said = {};
  const draw = (): void => {
    const unread = seen.announcements?.filter(({ id }) => !tapped.has(id)) ?? [];
    render(
      <OrganiserPart fairStop={seen.fairStop ?? null} announcements={unread} read={read} />,
      byId("organiser-part"),
    );
  };
  const read = (id: string): void => {
    tapped.add(id);
    draw();
    void api(`/announcements/${id}/read`, { method: "POST", body: {}, once: nanoid() }).then(({ status }) => {
      // Not heard: it is shown again with the next look.
      if (status !== 200) tapped.delete(id);
    });
  };
  return (queue) => {
    seen = queue;
    draw();
  };
}
