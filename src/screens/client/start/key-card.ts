/** A key as a link to open on a device, with a QR code to carry it there. Shown once. */

import { codeOf } from "../kit/code.ts";
import { element } from "../kit/dom.ts";

export type KeyCard = {
  /** Whose it is: "The crew's tablet". */
  readonly title: string;
  readonly says: string;
  readonly link: string;
  /** Its heading level on the page. */
  readonly heading: "h2" | "h3";
};

export function keyCard({ title, says, link, heading }: KeyCard): HTMLElement {
  const shown = element("input", {
    readonly: true,
    value: link,
    "aria-label": `Link: ${title}`,
    hidden: true,
  });
  const copied = element("span", { role: "status" });
  const copy = element("button", { type: "button" }, "Copy the link");
  const showLink = (): void => {
    shown.hidden = false;
    shown.select();
    copied.textContent = "Copy the link below.";
  };
  copy.addEventListener("click", () => {
    // Over plain http a browser has no clipboard to offer; the link is shown to be selected.
    if (navigator.clipboard === undefined) showLink();
    else navigator.clipboard.writeText(link).then(() => (copied.textContent = "Copied."), showLink);
  });
  return element(
    "section",
    { class: "card key-card" },
    element(heading, {}, title),
    element("p", {}, says),
    codeOf(link, `Code that opens: ${title}`) as unknown as HTMLElement, // only appended, as any node is
    element("p", { class: "address" }, `${new URL(link).host}${new URL(link).pathname}, with its key`),
    element(
      "p",
      { class: "row no-print" },
      element("a", { class: "button", href: link }, "Open here"),
      copy,
      copied,
    ),
    shown,
  );
}
