/** Taps that an earlier page kept on this tablet, with the names they have now. */
import type { Kept } from "../kit/kept.ts";
import type { Book, Tap } from "./taps.ts";

const ASIDE = /^\/presses\/([^/]+)\/aside$/;

/** Reserving garments was called keeping them aside. */
function presentTap<Act>(tap: Tap<Act>): Tap<Act> {
  const press = ASIDE.exec(tap.path)?.[1];
  if (press === undefined) return tap;
  const { jobs } = tap.body as { readonly jobs: number }; // as those taps were written
  const on = jobs > 0;
  const act = { type: "reserve", press, on } as Act; // the present name of that very act
  const says = on ? `garments reserved for press ${press}` : `the reserve of press ${press} given back`;
  return { ...tap, act, path: `/presses/${press}/reserve`, body: { on }, says };
}

const presentBook = <Act>(book: Book<Act>): Book<Act> =>
  book.taps.some(({ path }) => ASIDE.test(path)) ? { ...book, taps: book.taps.map(presentTap) } : book;

/** The kept taps under today's names. */
export const presentTaps = <Act>(store: Kept<Book<Act>>): Kept<Book<Act>> => ({
  read: async () => presentBook(await store.read()),
  change: (to) => store.change((before) => to(presentBook(before))),
});
