/**
 * The taps of this tablet that the stall has not answered yet, in the order they were made, and what there
 * is to be told about those it answered late. Pure: what is kept, and how it changes.
 */

/** One write: what it is for the screen, for the stall and for a person. */
export type Write<Act> = {
  /** What it does, so that the screen can show it before the stall has heard of it. */
  readonly act: Act;
  readonly path: string;
  readonly body: unknown;
  /** What it is, for a person: "127-1 pressed". */
  readonly says: string;
  /** Only its answer tells how to go on: nothing else is tapped until then, or until it is held. */
  readonly waits?: true;
  /** It is shown as done after so many milliseconds without an answer, and not only once the signal is known to be lost. */
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
export type News<Act> = {
  readonly id: string;
  readonly text: string;
  /** A tap that is not sent any more unless somebody says so. */
  readonly tap?: Tap<Act>;
};

export type Book<Act> = {
  readonly taps: readonly Tap<Act>[];
  readonly news: readonly News<Act>[];
  /** The numbers of kept orders that the stall has by now, until somebody has seen them. */
  readonly confirmed?: readonly number[];
};

export const EMPTY_BOOK: Book<never> = { taps: [], news: [] };

/** The stall knows a key for 48 hours; an hour is left for the way. */
export const SENT_AGAIN_FOR = 47 * 60 * 60 * 1000;

export const withTap = <Act>(book: Book<Act>, tap: Tap<Act>): Book<Act> => ({
  ...book,
  taps: [...book.taps, tap],
});

/** A tap that goes before all others. */
export const withFirst = <Act>(book: Book<Act>, tap: Tap<Act>): Book<Act> => ({
  ...book,
  taps: [tap, ...book.taps],
});

/** The taps under a path are not sent; each becomes something to read. */
export const fallen = <Act>(
  book: Book<Act>,
  path: string,
  news: (tap: Tap<Act>) => News<Act>,
): Book<Act> => ({
  ...book,
  taps: book.taps.filter((tap) => !tap.path.startsWith(path)),
  news: [...book.news, ...book.taps.filter((tap) => tap.path.startsWith(path)).map(news)],
});

/** The taps on an order that has another number than the tablet thought go to that one. */
export const renumbered = <Act>(book: Book<Act>, from: number, to: number): Book<Act> =>
  from === to
    ? book
    : {
        ...book,
        taps: book.taps.map((tap) => ({
          ...tap,
          path: tap.path.replace(new RegExp(`^/orders/${from}/`), `/orders/${to}/`),
        })),
      };

export const without = <Act>(book: Book<Act>, once: string): Book<Act> => ({
  ...book,
  taps: book.taps.filter((tap) => tap.once !== once),
});

export const asSent = <Act>(book: Book<Act>, once: string, now: number): Book<Act> => ({
  ...book,
  taps: book.taps.map((tap) =>
    tap.once === once && tap.firstSent === null ? { ...tap, firstSent: now } : tap,
  ),
});

export const withNews = <Act>(book: Book<Act>, news: News<Act>): Book<Act> => ({
  ...book,
  news: [...book.news, news],
});

export const readNews = <Act>(book: Book<Act>, id: string): Book<Act> => ({
  ...book,
  news: book.news.filter((one) => one.id !== id),
});

/**
 * Whether the stall may have carried it out and forgotten its key, so that it could happen twice. A tablet
 * whose clock was set back meanwhile counts as not having waited at all.
 */
export const tooOld = ({ firstSent }: Tap<unknown>, now: number): boolean =>
  firstSent !== null && now - firstSent > SENT_AGAIN_FOR;

/** A tap that is too old to go by itself becomes something to read, with the tap in it. */
export const retired = <Act>(book: Book<Act>, tap: Tap<Act>, news: News<Act>): Book<Act> =>
  withNews(without(book, tap.once), { ...news, tap });

/** Sends a retired tap all the same: as a new write, since its old key says nothing any more. */
export function revived<Act>(book: Book<Act>, id: string, once: string): Book<Act> {
  const tap = book.news.find((news) => news.id === id)?.tap;
  const rest = readNews(book, id);
  return tap === undefined ? rest : withTap(rest, { ...tap, once, firstSent: null });
}

/** Whether a tap can still be taken back unheard: the last one made, and never sent. */
export const canTakeBack = <Act>(book: Book<Act>, path: string): boolean => {
  const last = book.taps.at(-1);
  return last !== undefined && last.path === path && last.firstSent === null;
};
