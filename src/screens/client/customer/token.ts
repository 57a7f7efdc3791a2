/** The token by which a stall knows this browser's customer. */
import { local } from "../kit/texts-kept.ts";

export function tokenOf(place: string) {
  const name = `customer ${place}`;
  return {
    get: () => local.getItem(name),
    keep: (value: string) => local.setItem(name, value),
    forget: () => local.removeItem(name),
  };
}

/** Keeps the token that a link from the stall's old address brings, unless this browser has one for the stall already. */
export function takeBrought({ get, keep }: ReturnType<typeof tokenOf>): void {
  const brought = new URLSearchParams(location.hash.slice(1)).get("customer");
  if (brought === null) return;
  history.replaceState(null, "", location.pathname + location.search);
  if (get() === null) keep(brought);
}
