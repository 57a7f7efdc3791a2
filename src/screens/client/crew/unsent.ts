/** Says what was tapped and not sent yet, and what came of taps that were sent late, until somebody has read it. */
import { byId, element } from "../kit/dom.ts";
import { keepsLastingly } from "../kit/kept.ts";
import type { News, Tap } from "./taps.ts";
import { timeOfDay } from "./words/clock.ts";

type Ways = {
  readonly again: () => void;
  readonly letGo: (once: string) => void;
  readonly read: (id: string) => void;
  readonly sendAllTheSame: (id: string) => void;
};

export type Unsent = {
  /** Those that are listed here. */
  readonly taps: readonly Tap<unknown>[];
  /** How many there are in all. */
  readonly kept: number;
  readonly news: readonly News<unknown>[];
  readonly lost: boolean;
  /** The key of this tablet was refused. */
  readonly ended: boolean;
};

/** A tap is on its way this long before anything is said about it. */
const PATIENCE = 2000;

const button = (text: string, onclick: () => void): HTMLElement =>
  element("button", { type: "button", onclick }, text);

function headline({ taps, kept, lost, ended }: Unsent): string {
  if (ended && kept > 0)
    return "The key of this tablet has ended. Taps are kept: open the new crew link on this tablet, and they are sent.";
  if (lost) return `No signal · ${taps.length} ${taps.length === 1 ? "tap" : "taps"} saved`;
  return taps.length === 0 ? "" : "The signal is weak. Taps are kept until the stall has answered.";
}

export function unsentPanel({ again, letGo, read, sendAllTheSame }: Ways): { show: (now: Unsent) => void } {
  let shown = "";
  let timer: ReturnType<typeof setTimeout> | undefined;

  const tapRow = ({ says, at, once }: Tap<unknown>): HTMLElement =>
    element(
      "li",
      {},
      element("span", {}, `${timeOfDay(new Date(at).toISOString())}: ${says}`),
      button("Let it go", () => letGo(once)),
    );

  const newsRow = ({ id, text, tap }: News<unknown>): HTMLElement =>
    element(
      "li",
      {},
      element("span", {}, text),
      tap === undefined ? null : button("Send it all the same", () => sendAllTheSame(id)),
      button("I have read it", () => read(id)),
    );

  function show(now: Unsent): void {
    const { taps, kept, news, lost, ended } = now;
    clearTimeout(timer);
    const [first] = taps;
    const waited = first === undefined ? 0 : Math.abs(Date.now() - first.at);
    const onItsWay = first !== undefined && !lost && !ended && waited < PATIENCE;
    if (onItsWay) timer = setTimeout(() => show(now), PATIENCE - waited);
    // What the page lists by itself says as well that there is no signal.
    const quiet = onItsWay || (first === undefined && !(ended && kept > 0) && !(lost && kept === 0));
    const next = JSON.stringify([quiet ? null : [taps, kept, lost, ended], news, keepsLastingly()]);
    // Drawn anew only where something changed, so that an open list stays open and a focused button focused.
    if (next === shown) return;
    shown = next;
    byId("unsent").hidden = quiet;
    byId("unsent-why").textContent = quiet ? "" : headline(now);
    byId("unsent-what").hidden = taps.length === 0;
    byId("unsent-count").textContent = `Not sent yet: ${taps.length}`;
    byId("unsent-list").replaceChildren(...(quiet ? [] : taps.map(tapRow)));
    byId("unkept").hidden = keepsLastingly();
    byId("news").hidden = news.length === 0;
    byId("news-list").replaceChildren(...news.map(newsRow));
  }

  byId("unsent-again").addEventListener("click", again);
  return { show };
}
