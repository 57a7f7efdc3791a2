/**
 * The taps of this tablet that the stall has not answered, in order, and the messages about those it answered late.
 * Pure.
 */

/** One write: for the screen, for the stall and for a person. */
export type Write<Act> = {
  /** Its effect, so that the screen can show it before the stall has it. */
  readonly act: Act;
  readonly path: string;
  readonly body: unknown;
  /** Its name for a person: "127-1 pressed". */
  readonly says: string;
  /** The next step depends on its answer: nothing else is tapped until then, or until the tap is held. */
  readonly waits?: true;
  /** Show it as done after this many milliseconds without an answer, not only once the signal is lost. */
  readonly patience?: number;
};

export type Tap<Act> = Write<Act> & {
  /** Its idempotency key: the same however often it is sent. */
  readonly once: string;
  /** The page it was made on. */
  readonly page: string;
  /** When it was made, and when it was first sent, by this tablet's clock in milliseconds. */
  readonly at: number;
  readonly firstSent: number | null;
};

/** Something to be read by a person before it goes. */
export type Message<Act> = {
  readonly id: string;
  readonly text: string;
  /** A tap that is not sent any more unless somebody says so. */
  readonly tap?: Tap<Act>;
};

export type KeptTaps<Act> = {
  readonly taps: readonly Tap<Act>[];
  readonly news: readonly Message<Act>[];
  /** The numbers of kept orders that the stall has by now, until somebody has seen them. */
  readonly confirmed?: readonly number[];
};

export const NO_TAPS: KeptTaps<never> = { taps: [], news: [] };

/** The stall knows a key for 48 hours; an hour is left for the way. */
export const SENT_AGAIN_FOR = 47 * 60 * 60 * 1000;

export const withTap = <Act>(book: KeptTaps<Act>, tap: Tap<Act>): KeptTaps<Act> => ({
  ...book,
  taps: [...book.taps, tap],
});

/** A tap that goes before all others. */
export const withFirst = <Act>(book: KeptTaps<Act>, tap: Tap<Act>): KeptTaps<Act> => ({
  ...book,
  taps: [tap, ...book.taps],
});

/** The taps under a path are not sent; each becomes something to read. */
export const droppedUnder = <Act>(
  book: KeptTaps<Act>,
  path: string,
  news: (tap: Tap<Act>) => Message<Act>,
): KeptTaps<Act> => ({
  ...book,
  taps: book.taps.filter((tap) => !tap.path.startsWith(path)),
  news: [...book.news, ...book.taps.filter((tap) => tap.path.startsWith(path)).map(news)],
});

/** The taps on an order that has another number than the tablet thought go to that one. */
export const renumbered = <Act>(book: KeptTaps<Act>, from: number, to: number): KeptTaps<Act> =>
  from === to
    ? book
    : {
        ...book,
        taps: book.taps.map((tap) => ({
          ...tap,
          path: tap.path.replace(new RegExp(`^/orders/${from}/`), `/orders/${to}/`),
        })),
      };

export const without = <Act>(book: KeptTaps<Act>, once: string): KeptTaps<Act> => ({
  ...book,
  taps: book.taps.filter((tap) => tap.once !== once),
});

export const asSent = <Act>(book: KeptTaps<Act>, once: string, now: number): KeptTaps<Act> => ({
  ...book,
  taps: book.taps.map((tap) =>
    tap.once === once && tap.firstSent === null ? { ...tap, firstSent: now } : tap,
  ),
});

export const withMessage = <Act>(book: KeptTaps<Act>, news: Message<Act>): KeptTaps<Act> => ({
  ...book,
  news: [...book.news, news],
});

export const withoutMessage = <Act>(book: KeptTaps<Act>, id: string): KeptTaps<Act> => ({
  ...book,
  news: book.news.filter((one) => one.id !== id),
});

/**
 * Whether the stall may have carried it out and forgotten its key, so that it could happen twice. If the tablet's clock
 * was moved back since, the tap counts as new.
 */
export const tooOld = ({ firstSent }: Tap<unknown>, now: number): boolean =>
  firstSent !== null && now - firstSent > SENT_AGAIN_FOR;

/** Turns a tap that is too old to send into a message that contains the tap. */
export const expired = <Act>(book: KeptTaps<Act>, tap: Tap<Act>, news: Message<Act>): KeptTaps<Act> =>
  withMessage(without(book, tap.once), { ...news, tap });

/** Sends a retired tap anyway, as a new write, since its old key is forgotten. */
export function resent<Act>(book: KeptTaps<Act>, id: string, once: string): KeptTaps<Act> {
  const tap = book.news.find((news) => news.id === id)?.tap;
  const rest = withoutMessage(book, id);
  return tap === undefined ? rest : withTap(rest, { ...tap, once, firstSent: null });
}

/** Whether a tap can be withdrawn: it is the last one, and was never sent. */
export const canTakeBack = <Act>(book: KeptTaps<Act>, path: string): boolean => {
  const last = book.taps.at(-1);
  return last !== undefined && last.path === path && last.firstSent === null;
};
