/**
 * Outbox of the crew's taps: sends them in order and loses none. Each tap is on this tablet's disk before the screen
 * shows it, and stays there until the stall answers. Without signal they wait; each has an idempotency key, so that
 * none happens twice. All crew pages of a stall share one outbox.
 */
import { nanoid } from "nanoid";
import type { Api, Reply } from "../kit/api.ts";
import { kept } from "../kit/kept.ts";
import { alone } from "./alone.ts";
import { presentTaps } from "./earlier-taps.ts";
import { afterLateOrder, isBusy } from "./offline.ts";
import { fallenNews, fallsWith, lateNews, nextBefore, oldNews } from "./replies.ts";
import { retrying } from "./retrying.ts";
import {
  asSent,
  canTakeBack,
  droppedUnder,
  expired,
  type KeptTaps,
  NO_TAPS,
  resent,
  type Tap,
  tooOld,
  type Write,
  withFirst,
  withMessage,
  without,
  withoutMessage,
  withTap,
} from "./taps.ts";
import { unsentPanel } from "./unsent.tsx";

export type Sender<Act> = {
  readonly send: (write: Write<Act>) => void;
  /** Withdraws the last tap if it was never sent. Returns whether it could. */
  readonly takeBack: (path: string) => Promise<boolean>;
  /** Shows something until somebody has read it; once for each id. */
  readonly tell: (id: string, text: string) => void;
  /** Tells the sender whether the stall answered the last poll. */
  readonly heard: (answered: boolean) => void;
  /** Whether nothing else may be tapped: a tap is being kept, or the next step depends on its answer. */
  readonly busy: () => boolean;
  /** The stall cannot be reached just now. */
  readonly lost: () => boolean;
  /** The kept taps, and the messages about late ones. */
  readonly book: () => KeptTaps<Act>;
  /** Shows again what is unsent, and the page's own words beside it. */
  readonly banner: () => void;
  /** The confirmed orders were seen. */
  readonly confirmationsSeen: () => void;
  /** Acts that are not in the stall's own view yet, in order. */
  readonly ahead: () => readonly Act[];
  /** Call before a poll; call the returned function when its view has arrived. */
  readonly looking: () => () => void;
};

type Settings<Act> = {
  readonly api: Api;
  /** Names the stall whose taps these are. */
  readonly place: string;
  /** The id of this page; the callbacks below are for its own taps only. */
  readonly page: string;
  /** The stall answered a tap. If it answered late, a refusal is shown as news already. */
  readonly answered: (write: Write<Act>, reply: Reply, late: boolean) => void;
  /** Its answer does not come at once: it is kept, and shown as done. */
  readonly held: (write: Write<Act>) => void;
  /** The values above may have changed. */
  readonly changed: () => void;
  /** The taps that the page does not show itself. */
  readonly listed?: (book: KeptTaps<Act>) => readonly Tap<Act>[];
  /** The words after "No signal". */
  readonly beside?: () => string;
};

// Answers that do not say whether the write was done. 408, 425 and 429 ask for another try.
const unanswered = ({ status }: Reply): boolean =>
  status === 0 || status >= 500 || status === 408 || status === 425 || status === 429;
const keyEnded = ({ status }: Reply): boolean => status === 401 || status === 403;

export function sender<Act>(settings: Settings<Act>): Sender<Act> {
  const {
    api,
    place,
    page,
    answered,
    held,
    changed,
    listed = ({ taps }) => taps,
    beside = () => "",
  } = settings;
  const store = presentTaps(kept<KeptTaps<Act>>(`taps ${place}`, NO_TAPS));
  const otherTabs = new BroadcastChannel(`taps ${place}`);
  /** Taps made here that were neither held nor answered yet, by key: their answers are expected at once. */
  const prompt = new Map<string, Tap<Act>>();
  let book: KeptTaps<Act> = NO_TAPS;
  let keeping = 0;
  let lost = !navigator.onLine;
  let ended = false;
  let answers = 0;
  let unseen: readonly { readonly act: Act; readonly answer: number }[] = [];

  const panel = unsentPanel({
    again: () => retry.now(),
    letGo: (once) => void change((before) => without(before, once)),
    read: (id) => void change((before) => withoutMessage(before, id)),
    sendAllTheSame: (id) => void change((before) => resent(before, id, nanoid())).then(() => retry.now()),
  });

  const banner = (): void =>
    panel.show({
      taps: listed(book),
      kept: book.taps.length,
      news: book.news,
      lost,
      ended,
      beside: beside(),
    });

  const show = (): void => {
    changed();
    banner();
  };

  const hold = (tap: Tap<Act>): void => {
    if (prompt.delete(tap.once)) held(tap);
  };

  const holdAndShow = (tap: Tap<Act>): void => {
    if (!prompt.has(tap.once)) return;
    hold(tap);
    show();
  };

  const take = (now: KeptTaps<Act>): void => {
    book = now;
    // It is gone without an answer here: another tab has sent it.
    for (const tap of prompt.values()) if (!book.taps.some(({ once }) => once === tap.once)) hold(tap);
    show();
  };

  async function change(to: (before: KeptTaps<Act>) => KeptTaps<Act>): Promise<void> {
    take(await store.change(to));
    otherTabs.postMessage(null);
  }

  const setLost = (now: boolean): void => {
    const before = lost;
    lost = now;
    if (now) for (const tap of book.taps) hold(tap);
    if (now !== before) show();
  };

  /** Handles the stall's answer; news of late ones go into the book, to be read. */
  async function settle(tap: Tap<Act>, reply: Reply): Promise<void> {
    const late = !prompt.delete(tap.once);
    const text = late ? lateNews(tap, reply) : null;
    if (reply.status < 400) {
      answers += 1;
      unseen = [...unseen, { act: tap.act, answer: answers }];
    }
    await change((before) => {
      const order = late ? afterLateOrder(before, tap, reply, nanoid, text ?? "") : null;
      if (order !== null) return order;
      const rest = without(before, tap.once);
      const told = text === null ? rest : withMessage(rest, { id: nanoid(), text });
      const path = fallsWith(tap, reply);
      const done =
        path === null ? told : droppedUnder(told, path, (one) => ({ id: nanoid(), text: fallenNews(one) }));
      const back = nextBefore(tap, reply, done.taps);
      return back === null ? done : withFirst(done, { ...tap, ...back, once: nanoid(), firstSent: null });
    });
    if (tap.page === page) answered(tap, reply, late);
  }

  /** Sends the first tap; says whether there may be more to send. */
  async function sendFirst(): Promise<boolean> {
    take(await store.read());
    const [tap] = book.taps;
    if (tap === undefined) return false;
    if (tooOld(tap, Date.now())) {
      await change((before) => expired(before, tap, { id: nanoid(), text: oldNews(tap) }));
      return true;
    }
    if (tap.firstSent === null) await change((before) => asSent(before, tap.once, Date.now()));
    const reply = await api(tap.path, { method: "POST", body: tap.body, once: tap.once });
    ended = keyEnded(reply);
    setLost(reply.status === 0);
    if (ended || unanswered(reply)) {
      hold(tap);
      show();
      return false;
    }
    await settle(tap, reply);
    return true;
  }

  const retry = retrying({
    attempt: async () => {
      // It was not even tried, so the stall cannot have it.
      if (lost && !navigator.onLine) return book.taps.length === 0;
      await alone(`taps ${place}`, async (stillAlone) => {
        while (await sendFirst()) await stillAlone();
      });
      return book.taps.length === 0;
    },
  });

  async function keep(write: Write<Act>): Promise<void> {
    const tap: Tap<Act> = { ...write, once: nanoid(), page, at: Date.now(), firstSent: null };
    keeping += 1;
    changed();
    const now = await store.change((before) => withTap(before, tap));
    keeping -= 1;
    prompt.set(tap.once, tap);
    take(now);
    otherTabs.postMessage(null);
    if (lost || ended) hold(tap);
    else if (tap.patience !== undefined) setTimeout(() => holdAndShow(tap), tap.patience);
    show();
    retry.now();
  }

  const reload = async (): Promise<void> => take(await store.read());
  otherTabs.addEventListener("message", () => void reload());
  window.addEventListener("offline", () => setLost(true));
  void reload().then(() => retry.now());

  return {
    send: (write) => void keep(write),
    takeBack: async (path) => {
      let could = false;
      await change((before) => {
        could = canTakeBack(before, path);
        return could ? { ...before, taps: before.taps.slice(0, -1) } : before;
      });
      return could;
    },
    tell: (id, text) =>
      void change((before) =>
        before.news.some((news) => news.id === id) ? before : withMessage(before, { id, text }),
      ),
    heard: (answeredNow) => {
      setLost(!answeredNow);
      if (answeredNow && book.taps.length > 0) retry.now();
    },
    busy: () => isBusy({ keeping, awaited: [...prompt.values()], lost, ended }),
    book: () => book,
    banner,
    confirmationsSeen: () => void change((before) => ({ ...before, confirmed: [] })),
    lost: () => lost,
    ahead: () => [...unseen.map(({ act }) => act), ...book.taps.map(({ act }) => act)],
    looking: () => {
      const until = answers;
      return () => {
        unseen = unseen.filter(({ answer }) => answer > until);
      };
    },
  };
}
