/** Where the reader is: a change of the page moves neither what they read nor what they have focused. */
import { byId } from "../kit/dom.ts";

// A finger's breadth above the end still counts as the end.
const NEARLY_PX = 24;

const toEnd = (): number => document.documentElement.scrollHeight - window.innerHeight - window.scrollY;

/** Scrolls to the end of the talk, but never past the beginning of the question that is open. */
function goToEnd(): void {
  const question =
    document.querySelector(".line.open")?.getBoundingClientRect().top ?? Number.POSITIVE_INFINITY;
  const pinned = Math.max(0, byId("main").previousElementSibling?.getBoundingClientRect().bottom ?? 0);
  window.scrollBy({ top: Math.min(toEnd(), question - pinned - NEARLY_PX) });
}

let isFollowing = false;

/**
 * Draws, and follows the talk to its end once all that changes now has changed. A reader who has scrolled up to read
 * something stays there, except after an act of their own (`isOwn`).
 */
export function keepPlace(isOwn: boolean, draw: () => void): void {
  const height = document.documentElement.scrollHeight;
  const follows = isOwn || toEnd() <= NEARLY_PX;
  draw();
  if (isFollowing || !follows || (!isOwn && document.documentElement.scrollHeight === height)) return;
  isFollowing = true;
  requestAnimationFrame(() => {
    isFollowing = false;
    goToEnd();
  });
}

/** Draws. If the focused element is gone, its part gets the focus, so that a keyboard user goes on from there. */
export function keepFocus(draw: () => void): void {
  const part = document.activeElement?.closest<HTMLElement>("[data-keeps-focus]");
  draw();
  if (part?.isConnected === true && document.activeElement === document.body)
    part.focus({ preventScroll: true });
}
