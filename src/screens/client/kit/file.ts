/** Handing the person at the page a file. */
import { element } from "./dom.ts";

export function giveFile(name: string, type: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  element("a", { href: address, download: name }).click();
  URL.revokeObjectURL(address);
}
