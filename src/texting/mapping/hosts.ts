/** Where texts may be sent: a mapping carries secrets along, so the owner says to which hosts, or the fair's first one stays. */
import type { OutboundMapping } from "../../model/fair/gateway.ts";
import { type Bindings, listed } from "../bindings.ts";

/** The hosts that the owner pins; null leaves it to the fair, which keeps to the host that was saved first. */
export type PinnedHosts = readonly string[] | null;

function hostIn(address: string): string | null {
  try {
    return new URL(address).host;
  } catch {
    return null;
  }
}

/** GATEWAY_HOSTS as the owner lists them; without it the host of GATEWAY_URL, which the owner set too. */
export function pinnedHosts(env: object): PinnedHosts {
  const values = env as Readonly<Record<string, unknown>>; // read by name and checked
  const hosts = listed(values["GATEWAY_HOSTS"]).map((host) => host.toLowerCase());
  if (hosts.length > 0) return hosts;
  const address = values["GATEWAY_URL"];
  const host = typeof address === "string" ? hostIn(address) : null;
  return host === null ? null : [host];
}

/** A mapping's address with its leading binding filled in; other slots come after the host. */
export function addressIn({ url }: OutboundMapping, bindings: Bindings): string | null {
  const [slot, name] = /^\{binding:([A-Z0-9_]+)\}/.exec(url) ?? [];
  if (slot === undefined || name === undefined) return url;
  const value = bindings(name);
  return value === undefined ? null : value + url.slice(slot.length);
}

/** The host that a mapping sends to; null if its address has none. */
export function hostOf(outbound: OutboundMapping, bindings: Bindings): string | null {
  const address = addressIn(outbound, bindings);
  return address === null ? null : hostIn(address.replaceAll(/\{[^{}]*\}/g, "slot"));
}

/** Whether an address is on one of the hosts. */
export function mayGo(url: string, hosts: PinnedHosts): boolean {
  const host = hostIn(url);
  return host !== null && (hosts === null || hosts.includes(host));
}
