/** Handing the person at the page a file. */
import { element } from "./dom.ts";

export function giveFile(name: string, type: string, content: string | Blob): void {
  const address = URL.createObjectURL(new Blob([content], { type }));
  element("a", { href: address, download: name }).click();
  URL.revokeObjectURL(address);
}
