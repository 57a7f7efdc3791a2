/** The signs that a stall's figures give at a glance. */
import type { StallPace } from "../../../model/fair/throughput.ts";

/** In the order in which an organiser should look. */
export const SIGNS = [
  "gone quiet",
  "swamped",
  "paused",
  "not set up yet",
  "out of stock",
  "keeping up",
  "idle",
  "closed",
] as const;
export type Sign = (typeof SIGNS)[number];

/** The moment at which the figures are looked at. */
export type Moment = { readonly now: number; readonly open: boolean };

/** A crew's screens ask every few seconds, and the stall reports that to the fair every three minutes. */
const QUIET_MINUTES = 10;
/** More work than this many minutes is too much. */
const SWAMPED_MINUTES = 30;
/** Fewer garments than this are no rush, whatever the pace. */
const FEW_GARMENTS = 5;
/** Without an order since the quarter of an hour before the last one. */
const IDLE_MINUTES = 30;

type Figures = Pick<
  StallPace,
  "crewAt" | "orderedAt" | "backlog" | "backlogEnds" | "perHour" | "soldOut" | "paused"
> & { readonly setUp?: boolean };

/**
 * Minutes until the backlog is pressed: the stall's estimate, else at the pace of the last hour; null if nothing was
 * pressed in it.
 */
export function minutesToClear(
  { backlog, backlogEnds, perHour }: Pick<Figures, "backlog" | "backlogEnds" | "perHour">,
  now: number,
): number | null {
  if (backlog === 0) return 0;
  const left = backlogEnds === null ? 0 : Math.round((Date.parse(backlogEnds) - now) / 60_000);
  if (left > 0) return left;
  return perHour === 0 ? null : Math.round((backlog * 60) / perHour);
}

/** Minutes since an instant; null if there is none. */
export function minutesSince(instant: string | null, now: number): number | null {
  return instant === null ? null : Math.max(0, Math.floor((now - Date.parse(instant)) / 60_000));
}

/** All that can be said of a stall, the most pressing first; never empty. */
export function signsOf(stall: Figures, { now, open }: Moment): readonly [Sign, ...Sign[]] {
  // Nothing else can be said of a stall without a menu.
  if (stall.setUp === false) return ["not set up yet"];
  const silent = minutesSince(stall.crewAt, now);
  const ordered = minutesSince(stall.orderedAt, now);
  const clears = minutesToClear(stall, now);
  const quiet = (open || stall.backlog > 0) && (silent === null || silent >= QUIET_MINUTES);
  const swamped = stall.backlog >= FEW_GARMENTS && (clears === null || clears > SWAMPED_MINUTES);
  const still = stall.backlog === 0 && (ordered === null || ordered >= IDLE_MINUTES);
  const signs: Sign[] = [
    ...(quiet ? (["gone quiet"] as const) : []),
    ...(swamped ? (["swamped"] as const) : []),
    ...(open && stall.paused ? (["paused"] as const) : []),
    ...(open && stall.soldOut > 0 ? (["out of stock"] as const) : []),
    ...(open && still && !quiet ? (["idle"] as const) : []),
    ...(!open && stall.backlog === 0 ? (["closed"] as const) : []),
  ];
  const [first = "keeping up", ...more] = signs;
  return [first, ...more];
}

/** The urgency of a stall: 0 is the highest. */
export const rankOf = (stall: Figures, moment: Moment): number => SIGNS.indexOf(signsOf(stall, moment)[0]);
