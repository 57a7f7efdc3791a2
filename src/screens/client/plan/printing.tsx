/** @jsxImportSource preact */
/** What a person takes away of an answer: one sheet of a long page, printed without all around it, and files. */
import { giveFile } from "../kit/file.ts";

const LEFT_OUT = "not-printed";

/** A button that prints the answer, or the part of an answer, that contains it. */
export function PrintButton({ words }: { readonly words: string }) {
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
  return (
    <button type="button" class="no-print" onClick={print}>
      {words}
    </button>
  );
}

/** Opens folded parts while the page is printed, and folds them again afterwards. */
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

type File = { readonly name: string; readonly csv: () => string };

/** A button that saves a table as a file, written when it is asked for. */
export const CsvButton = ({ words, name, csv }: File & { readonly words: string }) => (
  <button type="button" onClick={() => giveFile(name, "text/csv", csv())}>
    {words}
  </button>
);

/** A paper's two buttons. */
export const Acts = ({ print, ...file }: File & { readonly print: string }) => (
  <div class="row no-print">
    <PrintButton words={print} />
    <CsvButton words="Save as CSV" {...file} />
  </div>
);
