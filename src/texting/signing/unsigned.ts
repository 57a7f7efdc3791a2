/**
 * Parts of a web hook that a mapping uses although no signature covers them: anybody who saw one hook could change them
 * in another.
 */
import type { GatewayMapping } from "../../model/fair/gateway.ts";

/** Names of the form's fields that are read, and whether anything is read from the query of the address. */
function usedBy({ inbound, receipts }: GatewayMapping) {
  const { id, from, to, text, at } = inbound;
  const ofReceipt = receipts === undefined ? [] : [receipts.id, receipts.status];
  const all = [
    id,
    from,
    text,
    ...(to === undefined ? [] : [to]),
    ...(at === undefined ? [] : [at]),
    ...ofReceipt,
  ];
  return {
    fields: [...new Set(all.filter((name) => !name.startsWith("?")))],
    query: receipts?.id.startsWith("?") === true,
  };
}

/**
 * The used but unsigned parts, in words; empty if all are signed or the mapping identifies the gateway by other means.
 */
export function unsignedParts(mapping: GatewayMapping): readonly string[] {
  const { verification } = mapping;
  const { fields, query } = usedBy(mapping);
  const address = query ? ["the query of the address"] : [];
  if (verification.by === "message-signature") {
    const { covers } = verification;
    const signsQuery = ["@query", "@target-uri", "@request-target"].some((part) => covers.includes(part));
    return [...(covers.includes("content-digest") ? [] : ["the body"]), ...(signsQuery ? [] : address)];
  }
  if (verification.by !== "hmac") return [];
  const { parts } = verification;
  const signsBody = parts.some(({ part }) => part === "body" || part === "fields");
  const signed = parts.flatMap((part) => (part.part === "field" ? [part.name] : []));
  return [
    ...(signsBody ? [] : fields.filter((name) => !signed.includes(name)).map((name) => `the field ${name}`)),
    ...(parts.some(({ part }) => part === "url") ? [] : address),
  ];
}
