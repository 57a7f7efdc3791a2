/** Entity tags that a reader brings with If-None-Match. */
import type { Context } from "hono";

/**
 * The opaque tags of If-None-Match, or "*"; weak ones count as strong ones do, since that comparison is
 * weak (RFC 9110, section 13.1.2).
 */
export function tagsOf(c: Context): readonly string[] {
  const header = c.req.header("If-None-Match") ?? "";
  if (header.trim() === "*") return ["*"];
  return [...header.matchAll(/(?:W\/)?"([\x21\x23-\x7e]{0,100})"/g)].flatMap(([, tag]) => tag ?? []);
}
