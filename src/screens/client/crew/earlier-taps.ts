/** Taps that an earlier page kept on this tablet, with the names they have now. */
import type { Kept } from "../kit/kept.ts";
import type { KeptTaps, Tap } from "./taps.ts";

const ASIDE = /^\/presses\/([^/]+)\/aside$/;

/** Acts that had other names, and what they are called now. Their routes still answer under the earlier address. */
const RENAMED: Readonly<Record<string, string>> = {
  undo: "undo-pressed",
  unspoiled: "undo-spoiled",
  unpaid: "undo-paid",
  kept: "kept-unpaid",
  ended: "closed",
  reopened: "undo-closed",
};

/** An act, or a change within it, as an earlier page wrote it. */
type EarlierAct = { readonly type: string; readonly undo?: boolean; readonly change?: EarlierAct };

function presentAct(act: EarlierAct): EarlierAct {
  const { type, undo, change } = act;
  if (change !== undefined) return { ...act, change: presentAct(change) };
  if (type === "given-back" && undo === true) return { type: "undo-given-back" };
  return { ...act, type: RENAMED[type] ?? type };
}

/** Reserving garments was called keeping them aside. */
function presentTap<Act>(tap: Tap<Act>): Tap<Act> {
  const press = ASIDE.exec(tap.path)?.[1];
  // Every act of every page has a type, and its present name is one of that page's.
  if (press === undefined) return { ...tap, act: presentAct(tap.act as EarlierAct) as Act };
  const { jobs } = tap.body as { readonly jobs: number }; // as those taps were written
  const on = jobs > 0;
  const act = { type: "reserve", press, on } as Act; // the present name of that very act
  const says = on ? `garments reserved for press ${press}` : `the reserve of press ${press} given back`;
  return { ...tap, act, path: `/presses/${press}/reserve`, body: { on }, says };
}

const presentBook = <Act>(book: KeptTaps<Act>): KeptTaps<Act> => ({
  ...book,
  taps: book.taps.map(presentTap),
  news: book.news.map((one) => (one.tap === undefined ? one : { ...one, tap: presentTap(one.tap) })),
});

/** The kept taps under today's names. */
export const presentTaps = <Act>(store: Kept<KeptTaps<Act>>): Kept<KeptTaps<Act>> => ({
  read: async () => presentBook(await store.read()),
  change: (to) => store.change((before) => to(presentBook(before))),
});
