/** @jsxImportSource preact */
/** The organiser's word to the stalls: stop all orders and go on, announce, and see who has read it. */
import { useState } from "preact/hooks";
import type { OrderStop, OrganiserNews, SentAnnouncement } from "../../../../model/fair/organising.ts";
import { type NamedStall, namesOf, stallsNamed } from "./stalls-named.ts";

export type WordActions = {
  readonly stop: (stop: OrderStop | null) => void;
  readonly announce: (text: string, stalls: readonly string[] | null) => void;
  readonly takeBack: (id: string) => void;
};

export type WordState = {
  readonly news: OrganiserNews;
  /** The result of the last tap; null: nothing to say. */
  readonly said: string | null;
  /** A tap is on its way. */
  readonly busy: boolean;
};

type Props = WordState & {
  readonly actions: WordActions;
  readonly stalls: readonly NamedStall[];
  /** The fair's own clock. */
  readonly clock: (instant: string) => string;
};

const REASONS = ["Storm", "Evacuation", "Power"];

/** How many stalls have it, in words. */
function reach({ untold }: Pick<OrganiserNews, "untold">, stalls: readonly NamedStall[]): string {
  if (untold.length === 0) return "Every stall has it.";
  return untold.length > 5
    ? `${untold.length} stalls do not have it yet.`
    : `Not there yet: ${namesOf(untold, stalls)}.`;
}

function Stopped({ news, busy, actions, clock, stalls }: Props) {
  const { stop } = news;
  if (stop === null) return null;
  return (
    <div class="notice" role="alert">
      <p>
        All orders are stopped since {clock(stop.since)}: {stop.reason}.{" "}
        {stop.pressing ? "Pressing is stopped too. " : "Presses go on. "}
        {reach(news, stalls)}
      </p>
      <button type="button" class="main" disabled={busy} onClick={() => actions.stop(null)}>
        Go on
      </button>
    </div>
  );
}

function StopForm({ busy, actions }: Props) {
  const [reason, setReason] = useState("");
  const [pressing, setPressing] = useState(false);
  return (
    <details class="stop-orders">
      <summary>Stop all orders</summary>
      <form
        class="stack tight"
        onSubmit={(event) => {
          event.preventDefault();
          if (reason.trim() !== "") actions.stop({ reason: reason.trim(), pressing });
        }}
      >
        <p>Every stall stops: on the web, by text and at the counter. No crew can change that.</p>
        <p class="row">
          {REASONS.map((word) => (
            <button type="button" key={word} aria-pressed={reason === word} onClick={() => setReason(word)}>
              {word}
            </button>
          ))}
        </p>
        <label for="stop-reason">Reason, shown to crews and customers</label>
        <input
          id="stop-reason"
          maxLength={80}
          required
          value={reason}
          onInput={({ currentTarget }) => setReason(currentTarget.value)}
        />
        <label>
          <input
            type="checkbox"
            checked={pressing}
            onChange={({ currentTarget }) => setPressing(currentTarget.checked)}
          />{" "}
          Stop pressing too: promised waits move by as long as it stands still
        </label>
        <button type="submit" class="danger" disabled={busy}>
          Stop all orders
        </button>
      </form>
    </details>
  );
}

function Announce({ news, busy, actions, stalls, clock }: Props) {
  const [text, setText] = useState("");
  const [some, setSome] = useState("");
  const { wanted, unknown } = stallsNamed(some, stalls);
  return (
    <details class="announce" open={news.announcements.some(({ unreadBy }) => unreadBy.length > 0)}>
      <summary>Announcements</summary>
      <form
        class="stack tight"
        onSubmit={(event) => {
          event.preventDefault();
          if (text.trim() === "" || unknown.length > 0) return;
          actions.announce(text.trim(), wanted.length === 0 ? null : wanted);
          setText("");
          setSome("");
        }}
      >
        <label for="announce-text">Message to the crews, never to customers</label>
        <textarea
          id="announce-text"
          maxLength={280}
          rows={2}
          required
          value={text}
          onInput={({ currentTarget }) => setText(currentTarget.value)}
        />
        <label for="announce-to">Only to these stalls (empty: to all)</label>
        <input
          id="announce-to"
          aria-describedby="announce-help"
          value={some}
          onInput={({ currentTarget }) => setSome(currentTarget.value)}
        />
        <p id="announce-help" class="help">
          Their names, with commas between them.
        </p>
        {unknown.length === 0 ? null : <p class="fault">The fair has no stall “{unknown.join("”, “")}”.</p>}
        <button type="submit" disabled={busy}>
          Send to crews
        </button>
      </form>
      <ul>
        {news.announcements.map((one) => (
          <Sent key={one.id} {...one} stalls={stalls} clock={clock} takeBack={actions.takeBack} />
        ))}
      </ul>
    </details>
  );
}

function Sent({
  id,
  text,
  at,
  readBy,
  unreadBy,
  takeBack,
  clock,
  stalls,
}: Omit<SentAnnouncement, "stalls"> &
  Pick<Props, "clock" | "stalls"> & { readonly takeBack: (id: string) => void }) {
  const all = readBy.length + unreadBy.length;
  return (
    <li>
      <p>
        {clock(at)}: {text}
      </p>
      <details>
        <summary>
          Read by {readBy.length} of {all}
        </summary>
        {unreadBy.length === 0 ? null : <p>Not yet: {namesOf(unreadBy, stalls)}</p>}
      </details>
      <button type="button" onClick={() => takeBack(id)}>
        Take back
      </button>
    </li>
  );
}

export function OrganiserWord(props: Props) {
  return (
    <section aria-label="To the stalls">
      <Stopped {...props} />
      <p role="status">{props.said ?? ""}</p>
      {props.news.stop === null ? <StopForm {...props} /> : null}
      <Announce {...props} />
    </section>
  );
}
