/** What the last tap came to, with the way back from a wrong one for as long as that is of use. */
import { element } from "../kit/dom.ts";

/** How long the last tap can be undone: the text that says "ready" waits as long, unless the stall's rules say otherwise. */
const UNDO_SECONDS = 10;

export type LastTap = {
  /**
   * Says it; `pressed` is the garment that could still be taken back or turn out spoiled, null where there
   * is none; `undo` is what takes any other tap back.
   */
  readonly say: (text: string | null, pressed: string | null, undo?: (() => void) | null) => void;
  /** Says more of the same tap: the way back stays as it was. */
  readonly add: (text: string) => void;
  /** Nothing may be tapped for a moment, or again. */
  readonly wait: (busy: boolean) => void;
};

export type LastWays = {
  readonly undo: (job: string) => void;
  readonly wasSpoiled: (job: string) => void;
};

/** The last tap at the bench `root`. */
export function lastTap(root: HTMLElement, { undo, wasSpoiled }: LastWays): LastTap {
  const part = <T extends HTMLElement>(name: string): T => {
    const found = root.querySelector<T>(`[data-part="${name}"]`);
    if (found === null) throw new Error(`the bench has no ${name}`);
    return found;
  };
  const [line, what] = [part("last"), part("last-what")];
  const [undoing, spoiled] = [part<HTMLButtonElement>("last-undo"), part<HTMLButtonElement>("last-spoiled")];
  let back: string | null = null;
  let other: (() => void) | null = null;
  let left = 0;
  let timer: ReturnType<typeof setInterval> | undefined;

  const show = (): void => {
    undoing.hidden = left <= 0 || (back === null && other === null);
    // The seconds are for the eye: a name that changes each second would be read out each second.
    undoing.replaceChildren("Undo", element("span", { "aria-hidden": "true" }, ` ${left} s`));
    spoiled.hidden = back === null;
  };
  const tick = (): void => {
    left -= 1;
    if (left <= 0) clearInterval(timer);
    show();
  };

  undoing.addEventListener("click", () => {
    const [job, take] = [back, other];
    clearInterval(timer);
    left = 0;
    show();
    if (job !== null) undo(job);
    else take?.();
  });
  spoiled.addEventListener("click", () => {
    if (back !== null) wasSpoiled(back);
  });
  return {
    say: (text, pressed, take = null) => {
      // A pull leaves the way back open: a wrong tap is often seen only when the next garment lies there.
      if (text === null) return;
      back = pressed;
      other = take;
      line.hidden = false;
      what.textContent = text;
      clearInterval(timer);
      left = pressed === null && take === null ? 0 : UNDO_SECONDS;
      if (left > 0) timer = setInterval(tick, 1000);
      show();
    },
    add: (text) => {
      line.hidden = false;
      what.textContent = left > 0 ? `${what.textContent} ${text}` : text;
    },
    wait: (busy) => {
      undoing.disabled = busy;
      spoiled.disabled = busy;
    },
  };
}
