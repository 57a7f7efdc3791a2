/**
 * Sends one write at a time and does not lose it. What the stall never answered is kept in this browser,
 * said to be not sent yet, and sent again with its own key, so that it cannot happen twice.
 */
import { nanoid } from "nanoid";
import type { Api, Reply } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";

/** A write with what it was meant to do, so that its answer means something after a reload too. */
export type Write<Act> = {
  readonly act: Act;
  readonly path: string;
  readonly body: unknown;
  readonly once: string;
  /** What it is, for a person: "127-1 pressed". */
  readonly says: string;
};

export type Sender<Act> = {
  /** Sends it, unless another write is still under way. */
  readonly send: (write: Omit<Write<Act>, "once">) => void;
  /** Sends what was never answered once more. */
  readonly again: () => void;
  /** A write is under way or waits to be sent again: nothing else may be tapped. */
  readonly busy: () => boolean;
};

type Settings<Act> = {
  readonly api: Api;
  /** Where in this browser the unanswered write is kept. */
  readonly keep: string;
  /** The stall answered, well or with a refusal. */
  readonly answered: (write: Write<Act>, reply: Reply) => void;
  /** `busy` may have changed. */
  readonly changed: () => void;
};

// Neither says what became of the write.
const unanswered = ({ status }: Reply): boolean => status === 0 || status >= 500;

export function sender<Act>({ api, keep, answered, changed }: Settings<Act>): Sender<Act> {
  const kept = localStorage.getItem(keep);
  let waiting = kept === null ? null : (JSON.parse(kept) as Write<Act>); // written below only
  let sending = false;

  const showUnsent = (): void => {
    const lost = waiting !== null && !sending;
    byId("unsent").hidden = !lost;
    if (lost) byId("unsent-what").textContent = `Not sent yet: ${waiting?.says}.`;
  };
  const show = (): void => {
    showUnsent();
    changed();
  };

  const attempt = async (): Promise<void> => {
    if (waiting === null || sending) return;
    const write = waiting;
    sending = true;
    changed();
    const reply = await api(write.path, { method: "POST", body: write.body, once: write.once });
    sending = false;
    if (unanswered(reply)) return show();
    waiting = null;
    localStorage.removeItem(keep);
    show();
    answered(write, reply);
  };

  byId("unsent-again").addEventListener("click", () => void attempt());
  byId("unsent-let-go").addEventListener("click", () => {
    waiting = null;
    localStorage.removeItem(keep);
    show();
  });
  window.addEventListener("online", () => void attempt());
  showUnsent();

  return {
    send: (write) => {
      if (waiting !== null) return;
      waiting = { ...write, once: nanoid() };
      localStorage.setItem(keep, JSON.stringify(waiting));
      void attempt();
    },
    again: () => void attempt(),
    busy: () => waiting !== null,
  };
}
