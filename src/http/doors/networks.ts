/** Addresses as they are counted. */

/** The groups of 16 bits of an IPv6 address that name a network: what one household or phone is given whole. */
const NETWORK_GROUPS = 4;

/** The part of an address that is counted: an IPv4 address, or the network of an IPv6 address. */
export function networkOf(address: string | undefined): string {
  if (address === undefined) return "unknown";
  if (!address.includes(":")) return address;
  const [head = "", tail] = address.toLowerCase().split("::");
  const first = head === "" ? [] : head.split(":");
  const last = tail === undefined || tail === "" ? [] : tail.split(":");
  const gap = tail === undefined ? 0 : Math.max(0, 8 - first.length - last.length);
  const groups = [...first, ...Array.from({ length: gap }, () => "0"), ...last];
  return groups
    .slice(0, NETWORK_GROUPS)
    .map((group) => group.replace(/^0{1,3}(?=.)/, ""))
    .join(":");
}
