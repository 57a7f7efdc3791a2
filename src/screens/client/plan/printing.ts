/** What a person takes away of an answer: one sheet of a long page, printed without all around it, and files. */
import { element } from "../kit/dom.ts";
import { giveFile } from "../kit/file.ts";

const LEFT_OUT = "not-printed";

/** A button that prints the answer, or the part of an answer, that contains it. */
export function printButton(words: string): HTMLElement {
  const print = (event: Event): void => {
    const sheet = (event.currentTarget as HTMLElement).closest(".result, .answer"); // the button made here
    for (let at = sheet; at !== null && at !== document.body; at = at.parentElement) {
      for (const beside of at.parentElement?.children ?? [])
        if (beside !== at) beside.classList.add(LEFT_OUT);
    }
    window.addEventListener(
      "afterprint",
      () => {
        for (const one of document.querySelectorAll(`.${LEFT_OUT}`)) one.classList.remove(LEFT_OUT);
      },
      { once: true },
    );
    window.print();
  };
  return element("button", { type: "button", class: "no-print", onclick: print }, words);
}

/** What is folded away on a screen is on the paper, and folded again after it. */
export function unfoldPapers(): void {
  window.addEventListener("beforeprint", () => {
    const opened = [...document.querySelectorAll("details")].filter(
      (lid) => !lid.open && lid.closest(".paper") !== null,
    );
    for (const lid of opened) lid.open = true;
    const close = (): void => {
      for (const lid of opened) lid.open = false;
    };
    window.addEventListener("afterprint", close, { once: true });
  });
}

/** A button that saves a table as a file, written when it is asked for. */
export const csvButton = (words: string, name: string, csv: () => string): HTMLElement =>
  element("button", { type: "button", onclick: () => giveFile(name, "text/csv", csv()) }, words);

/** A paper's two buttons. */
export const acts = (print: string, name: string, csv: () => string): HTMLElement =>
  element("div", { class: "row no-print" }, printButton(print), csvButton("Save as CSV", name, csv));
