/** What a stall's figures say at a glance. */
import type { StallPace } from "../../../model/throughput.ts";

/** In the order in which an organiser should look. */
export const SIGNS = ["gone quiet", "swamped", "out of stock", "keeping up", "idle"] as const;
export type Sign = (typeof SIGNS)[number];

/**
 * A stall tells its fair of every change within seconds, so this long without a word means that nothing
 * moves: with work waiting something is wrong, without any the stall is idle.
 */
const QUIET_MINUTES = 10;
/** More work than this many minutes at the present pace is too much. */
const SWAMPED_MINUTES = 30;
/** Fewer garments than this are no rush, whatever the pace. */
const FEW_GARMENTS = 5;

type Figures = Pick<StallPace, "heardAt" | "backlog" | "perHour" | "soldOut">;

/** Minutes until the backlog is pressed at the pace of the last hour; null where nothing was pressed in it. */
export function minutesToClear({ backlog, perHour }: Figures): number | null {
  if (backlog === 0) return 0;
  return perHour === 0 ? null : Math.round((backlog * 60) / perHour);
}

/** Minutes since the fair last heard of a stall; null where it never did. */
export function minutesSilent({ heardAt }: Figures, now: number): number | null {
  return heardAt === null ? null : Math.max(0, Math.floor((now - Date.parse(heardAt)) / 60_000));
}

/** All that can be said of a stall, the most pressing first; never empty. */
export function signsOf(stall: Figures, now: number): readonly [Sign, ...Sign[]] {
  const silent = minutesSilent(stall, now);
  const clears = minutesToClear(stall);
  const still = silent === null || silent >= QUIET_MINUTES;
  const quiet = silent === null || (still && stall.backlog > 0);
  const swamped = stall.backlog >= FEW_GARMENTS && (clears === null || clears > SWAMPED_MINUTES);
  const signs: Sign[] = [
    ...(quiet ? (["gone quiet"] as const) : []),
    ...(swamped ? (["swamped"] as const) : []),
    ...(stall.soldOut > 0 ? (["out of stock"] as const) : []),
    ...(still && !quiet ? (["idle"] as const) : []),
  ];
  const [first = "keeping up", ...more] = signs;
  return [first, ...more];
}

/** How pressing a stall is: 0 is the most. */
export const rankOf = (stall: Figures, now: number): number => SIGNS.indexOf(signsOf(stall, now)[0]);
