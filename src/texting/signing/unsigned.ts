/** What a mapping uses of a web hook although no signature covers it: anybody who saw one hook could change it in another. */
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

/** What is used and not signed, in words; empty if everything is, or if the mapping knows the gateway by other means. */
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
