/** Handing the person at the page a file. */
import { element } from "./dom.ts";

/** Without this mark before it, spreadsheets read a table's "×" and "é" in another alphabet. */
const UTF_8_MARK = "\uFEFF";

export function giveFile(name: string, type: string, content: string | Blob): void {
  const parts = type === "text/csv" ? [UTF_8_MARK, content] : [content];
  const address = URL.createObjectURL(new Blob(parts, { type }));
  element("a", { href: address, download: name }).click();
  URL.revokeObjectURL(address);
}
