/** Asks what was lost with a spoiled garment, and why. */
import type { Lost, SpoilReason } from "../../../model/orders/taps.ts";
import { chosen, clearChoice } from "../crew/choices.ts";
import { byId } from "../kit/dom.ts";

export type SpoilNote = { readonly lost: Lost; readonly reason: SpoilReason };

/** Gives the question for one garment; `note` is called once it was answered. */
export function spoilQuestion(
  note: (press: string, job: string, answer: SpoilNote) => void,
): (press: string, job: string) => void {
  const dialog = byId<HTMLDialogElement>("spoil");
  let about: readonly [press: string, job: string] | null = null;
  byId("spoil-back").addEventListener("click", () => dialog.close());
  byId("spoil-note").addEventListener("click", () => {
    // The values of the shell's radio buttons are the schema's own.
    const lost = chosen(dialog, "lost") as Lost | null;
    const reason = chosen(dialog, "why") as SpoilReason | null;
    if (about === null || lost === null || reason === null) {
      byId("spoil-missing").textContent = "Choose one of each.";
      return;
    }
    dialog.close();
    note(...about, { lost, reason });
  });
  return (press, asked) => {
    about = [press, asked];
    byId("spoil-title").textContent = `${asked} spoiled`;
    byId("spoil-missing").textContent = "";
    for (const name of ["lost", "why"]) clearChoice(dialog, name);
    dialog.showModal();
  };
}
