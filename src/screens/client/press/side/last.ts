/** What the last tap came to, with the way back from a wrong one for as long as that is of use. */
import { byId, element } from "../../kit/dom.ts";

/** How long the last tap can be undone: the text that says "ready" waits as long, unless the stall's rules say otherwise. */
const UNDO_SECONDS = 10;

export type LastTap = {
  /**
   * Says it; `pressed` is the garment that could still be taken back or turn out spoiled, null where there
   * is none; `undo` is what takes any other tap back.
   */
  readonly say: (text: string | null, pressed: string | null, undo?: (() => void) | null) => void;
};

type Ways = { readonly undo: (job: string) => void; readonly spoiled: (job: string) => void };

export function lastTap({ undo, spoiled }: Ways): LastTap {
  let back: string | null = null;
  let other: (() => void) | null = null;
  let left = 0;
  let timer: ReturnType<typeof setInterval> | undefined;

  const show = (): void => {
    const can = left > 0 && (back !== null || other !== null);
    byId("last-undo").hidden = !can;
    // The seconds are for the eye: a name that changes each second would be read out each second.
    byId("last-undo").replaceChildren("Undo", element("span", { "aria-hidden": "true" }, ` ${left} s`));
    byId("last-spoiled").hidden = back === null;
  };
  const tick = (): void => {
    left -= 1;
    if (left <= 0) clearInterval(timer);
    show();
  };
  const close = (): void => {
    clearInterval(timer);
    left = 0;
    show();
  };

  byId("last-undo").addEventListener("click", () => {
    const [job, take] = [back, other];
    close();
    if (job !== null) undo(job);
    else take?.();
  });
  byId("last-spoiled").addEventListener("click", () => {
    if (back !== null) spoiled(back);
  });
  return {
    say: (text, pressed, take = null) => {
      // A pull leaves the way back open: a wrong tap is often seen only when the next garment lies there.
      if (text === null) return;
      back = pressed;
      other = take;
      byId("last").hidden = false;
      byId("last-what").textContent = text;
      clearInterval(timer);
      left = pressed === null && take === null ? 0 : UNDO_SECONDS;
      if (left > 0) timer = setInterval(tick, 1000);
      show();
    },
  };
}
