/** A key as what it is for: a link to open on a device, and a code to carry it there. Shown once. */

import { codeOf } from "../kit/code.ts";
import { element } from "../kit/dom.ts";

export type KeyCard = {
  /** Whose it is: "The crew's tablet". */
  readonly title: string;
  readonly says: string;
  readonly link: string;
  /** Where it stands in the page's outline. */
  readonly heading: "h2" | "h3";
};

export function keyCard({ title, says, link, heading }: KeyCard): HTMLElement {
  const copied = element("span", { role: "status" });
  const copy = element("button", { type: "button" }, "Copy the link");
  copy.addEventListener("click", () => {
    // Over plain http a browser has no clipboard to offer; the link stands there to be selected.
    if (navigator.clipboard === undefined) copied.textContent = " Select the link and copy it.";
    else
      navigator.clipboard.writeText(link).then(
        () => (copied.textContent = " Copied."),
        () => (copied.textContent = " Select the link and copy it."),
      );
  });
  return element(
    "section",
    { class: "key-card" },
    element(heading, {}, title),
    element("p", {}, says),
    codeOf(link, `Code that opens: ${title}`) as unknown as HTMLElement, // only appended, as any node is
    element("p", {}, element("a", { class: "address", href: link }, link)),
    element("p", { class: "row no-print" }, copy, copied),
  );
}
