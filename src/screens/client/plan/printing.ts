/** Printing one sheet of a long page: everything around it is left out until the printing is over. */
import { element } from "../kit/dom.ts";

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
