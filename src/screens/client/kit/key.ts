/** A key comes in the link's fragment, is kept in this browser, and is taken out of the address at once. */

/** The key kept for a place, taken from the fragment (`#key=…`) where the link brought one; null where there is none. */
export function keyFor(place: string): string | null {
  const name = `key ${place}`;
  const brought = new URLSearchParams(location.hash.slice(1)).get("key");
  if (brought !== null) {
    localStorage.setItem(name, brought);
    history.replaceState(null, "", location.pathname + location.search);
    return brought;
  }
  return localStorage.getItem(name);
}

export function keepKey(place: string, key: string): void {
  localStorage.setItem(`key ${place}`, key);
}
