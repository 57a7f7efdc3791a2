/** The menu's version as an entity tag, so that nobody overwrites another person's save. */
import type { Context } from "hono";
import type { App } from "./env.ts";

export const menuTag = (version: number): string => `"m${version}"`;

/** A version that no menu has: what If-Match named is not the menu's. */
const NONE = -1;

/**
 * The version an edit began from, by If-Match; the comparison is strong, so a weak tag matches nothing
 * (RFC 9110, section 13.1.1). Without the header, or with `*`, the menu is set whatever it was.
 */
export function basedOn(c: Context<App>): { readonly basedOn?: number } {
  const header = c.req.header("If-Match")?.trim();
  if (header === undefined || header === "*") return {};
  const version = /^"m(\d{1,15})"$/.exec(header)?.[1];
  return { basedOn: version === undefined ? NONE : Number(version) };
}
