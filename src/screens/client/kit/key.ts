/** A key comes in the link's fragment, is kept in this browser, and is taken out of the address at once. */

import { local } from "./texts-kept.ts";

/** The key kept for a place, taken from the fragment (`#key=…`) where the link brought one; null where there is none. */
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

/** Whether a key is for a press alone. */
export const isPressKey = (key: string): boolean => key.startsWith("press.");

export function keepKey(place: string, key: string): void {
  local.setItem(`key ${place}`, key);
}
