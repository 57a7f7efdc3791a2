/** A link that somebody was given, as it was pasted. */

export type NotOpenable = { readonly fault: string };

/** The page's address on this site, fragment included; or what is wrong with the link. */
export function openable(pasted: string, origin: string): string | NotOpenable {
  const text = pasted.trim();
  if (text === "") return { fault: "Paste the link first." };
  let link: URL;
  try {
    link = new URL(text, origin);
  } catch {
    return { fault: "This is no link. Copy it whole, from “http” to its end." };
  }
  if (!/^\/(?:crew|fair|at|start|plan)(?:\/|$)/.test(link.pathname))
    return { fault: "This link leads to no page here. Copy it whole, from “http” to its end." };
  if (link.origin !== origin)
    return {
      fault: `This link belongs to ${link.host}. Open it there: paste it in the browser’s address line.`,
    };
  return link.pathname + link.search + link.hash;
}
