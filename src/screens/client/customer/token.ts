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

/** Keeps the token from a link of the stall's old address, unless this browser already has one for the stall. */
export function takeBrought({ get, keep }: ReturnType<typeof tokenOf>): void {
  const brought = new URLSearchParams(location.hash.slice(1)).get("customer");
  if (brought === null) return;
  history.replaceState(null, "", location.pathname + location.search);
  if (get() === null) keep(brought);
}
