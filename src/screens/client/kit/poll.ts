/** Asking again and again, politely: slower while the page is hidden or the network fails. */
import { byId } from "./dom.ts";

/** A page's words about how fresh it is. */
export type FreshnessWords = {
  readonly never: string;
  /** While the page is up to date. */
  readonly current: string;
  readonly ago: (seconds: number) => string;
  readonly lost: string;
  readonly back: string;
};

const ENGLISH: FreshnessWords = {
  never: "Not connected yet",
  current: "Up to date",
  ago: (seconds) => `Updated ${seconds} s ago`,
  lost: "No connection.",
  back: "Connected again.",
};

export type Polling = {
  readonly everySeconds: number;
  readonly words?: FreshnessWords;
  /** One look; says whether the stall answered. */
  readonly look: () => Promise<boolean>;
};

const HIDDEN_SECONDS = 30;
const LONGEST_SECONDS = 60;
const STALE_SECONDS = 15;

export type Polls = {
  /** Looks at once. */
  readonly now: () => void;
  /** The page shows kept data: the last answer of the stall was at this time (milliseconds since 1970). */
  readonly heardBefore: (at: number) => void;
};

/** Starts polling and keeps #freshness telling when the stall was last heard. */
export function poll({ everySeconds, look, words = ENGLISH }: Polling): Polls {
  let failures = 0;
  let heardAt: number | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let looking = false;
  let wanted = false;

  const say = (): void => {
    const line = byId("freshness");
    // A clock that was moved back must not put it in the future.
    const seconds = heardAt === null ? null : Math.max(0, Math.round((Date.now() - heardAt) / 1000));
    const stale = failures > 0 || (seconds ?? 0) > STALE_SECONDS;
    line.classList.toggle("stale", stale);
    line.classList.toggle("current", heardAt !== null && !stale);
    const heard = seconds === null ? words.never : stale ? words.ago(seconds) : words.current;
    const told = failures > 0 ? `${words.lost} ${heard}` : heard;
    if (line.textContent !== told) line.textContent = told;
    announce();
  };

  // The ticking line is for the eye; a screen reader only hears that the connection is lost or back.
  const announce = (): void => {
    const live = byId("connection");
    const lost = failures > 0;
    if (lost === live.classList.contains("lost")) return;
    live.classList.toggle("lost", lost);
    live.textContent = lost ? words.lost : words.back;
  };

  const once = async (): Promise<void> => {
    if (looking) {
      // The poll under way may have been answered before the change that must be shown.
      wanted = true;
      return;
    }
    looking = true;
    clearTimeout(timer);
    const answered = await look();
    looking = false;
    failures = answered ? 0 : failures + 1;
    if (answered) heardAt = Date.now();
    say();
    const wait = failures > 0 ? Math.min(everySeconds * 2 ** failures, LONGEST_SECONDS) : everySeconds;
    const atOnce = wanted && answered;
    wanted = false;
    const seconds = atOnce ? 0 : document.hidden ? Math.max(wait, HIDDEN_SECONDS) : wait;
    timer = setTimeout(once, seconds * 1000);
  };

  setInterval(say, 1000);
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) void once();
  });
  window.addEventListener("online", () => void once());
  void once();
  return {
    now: () => void once(),
    heardBefore: (at) => {
      heardAt ??= at;
      say();
    },
  };
}
