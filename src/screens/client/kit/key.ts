/** A key comes in the link's fragment, is kept in this browser, and is taken out of the address at once. */

import { local } from "./texts-kept.ts";

/** The key for a place, from the fragment (`#key=…`) if the link has one, else the kept one; null if there is none. */
export function keyFor(place: string): string | null {
  const name = `key ${place}`;
  const brought = new URLSearchParams(location.hash.slice(1)).get("key");
  if (brought !== null) {
    local.setItem(name, brought);
    history.replaceState(null, "", location.pathname + location.search);
    return brought;
  }
  return local.getItem(name);
}

/** Whether a key is for the press screen only. */
export const isPressKey = (key: string): boolean => key.startsWith("press.");

export function keepKey(place: string, key: string): void {
  local.setItem(`key ${place}`, key);
}
