/** What the last tap came to, with the way back from a wrong one. */
import { byId } from "../kit/dom.ts";

export type LastTap = {
  /** Says it; `pressed` is the garment that could still be taken back, null where there is none. */
  readonly say: (text: string | null, pressed: string | null) => void;
};

type Ways = { readonly undo: (job: string) => void; readonly spoiled: (job: string) => void };

export function lastTap({ undo, spoiled }: Ways): LastTap {
  let back: string | null = null;
  byId("last-undo").addEventListener("click", () => {
    if (back !== null) undo(back);
  });
  byId("last-spoiled").addEventListener("click", () => {
    if (back !== null) spoiled(back);
  });
  return {
    say: (text, pressed) => {
      // A pull leaves the way back open: a wrong tap is often seen only when the next garment lies there.
      if (text === null) return;
      back = pressed;
      byId("last").hidden = false;
      byId("last-what").textContent = text;
      for (const id of ["last-undo", "last-spoiled"]) byId(id).hidden = pressed === null;
    },
  };
}
