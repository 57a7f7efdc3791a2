/** Counting wishes: each garment once per customer in 30 minutes, met or not. */
import type { Garment, OrderingPort } from "./ordering-port.ts";
import { rangesOf } from "./range.ts";
import type { Draft, RecentAsk, Talk } from "./talk.ts";

const ONCE_IN = 30 * 60_000;

type Now = Pick<OrderingPort, "now">;

const keyOf = ({ offer, colour, size }: Garment): string => `${offer} ${colour} ${size}`;

const recent = (talk: Talk, now: number): readonly RecentAsk[] =>
  talk.asks.filter(({ at }) => now - at < ONCE_IN);

/** Whether the customer asked for anything in the last 30 minutes. */
export const askedLately = (talk: Talk, now: number): boolean => recent(talk, now).length > 0;

/** The places of the lines that are new wishes. */
export function newAsks({ now }: Now, talk: Talk, lines: readonly Garment[]): readonly number[] {
  const known = new Set(recent(talk, now).map(({ garment }) => garment));
  return lines.flatMap((line, index) => (known.has(keyOf(line)) ? [] : [index]));
}

/** The conversation, remembering that these garments have been counted. */
export function counted({ now }: Now, talk: Talk, garments: readonly Garment[]): Talk {
  return remembered(talk, now, garments.map(keyOf));
}

function remembered(talk: Talk, now: number, keys: readonly string[]): Talk {
  const before = recent(talk, now);
  const fresh = keys.filter((key) => !before.some(({ garment }) => garment === key));
  return { ...talk, asks: [...before, ...fresh.map((garment) => ({ garment, at: now }))].slice(-40) };
}

/**
 * Notes a wish that failed because the named parts are sold out. Parts not said yet are filled in with the likeliest
 * (the first colour, the middle adult size), and the stall is told which.
 */
export function unmet(port: OrderingPort, talk: Talk, draft: Draft, left: number): Talk {
  const wish = likeliest(port, draft);
  if (wish === null) return talk;
  const { garment, assumed } = wish;
  // The part of a wish that stock covers is counted when it is held; the rest of it here, under its own key.
  const key =
    left > 0 ? `${keyOf(garment)} more` : assumed.length > 0 ? `${keyOf(garment)} or so` : keyOf(garment);
  if (recent(talk, port.now).some((ask) => ask.garment === key)) return talk;
  port.attempt({
    type: "note-ask",
    garment,
    ...(assumed.length > 0 ? { assumed } : {}),
    garments: Math.max(1, (draft.quantity ?? 1) - left),
    unmet: "sold-out",
  });
  return remembered(talk, port.now, [key]);
}

/** The likeliest garment of a draft; null if not even the offer is known. */
export function likeliest(
  port: OrderingPort,
  draft: Draft,
): { readonly garment: Garment; readonly assumed: readonly ("colour" | "size")[] } | null {
  const range = draft.offer === null ? undefined : rangesOf(port.menu).get(draft.offer);
  if (range === undefined) return null;
  const grown = range.sizes.filter(({ child }) => !child);
  const sizes = grown.length > 0 ? grown : range.sizes;
  const colour = draft.colour ?? range.colours[0]?.id;
  const size = draft.size ?? sizes[sizes.length >> 1]?.id;
  if (colour === undefined || size === undefined) return null;
  const assumed = [
    ...(draft.colour === null ? (["colour"] as const) : []),
    ...(draft.size === null ? (["size"] as const) : []),
  ];
  return { garment: { offer: range.offer.id, colour, size }, assumed };
}
