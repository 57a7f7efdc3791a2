/** Reaching a stall's object, and its version as an entity tag. */
import type { Context } from "hono";
import type { FairId, StallId } from "../model/ids.ts";
import type { Versions } from "../stall/versions.ts";
import type { App } from "./env.ts";

export const stallOf = (
  c: Context<App>,
  { fair, stall }: { readonly fair: FairId; readonly stall: StallId },
) => c.env.STALL.getByName(`${fair}/${stall}`);

/**
 * The versions a reader has, by If-None-Match; the comparison is weak (RFC 9110, section 13.1.2), and `*`
 * stands for any.
 */
export function versionsOf(c: Context<App>): Versions {
  const header = c.req.header("If-None-Match") ?? "";
  if (header.trim() === "*") return "any";
  return [...header.matchAll(/(?:W\/)?"v(\d{1,15})"/g)].map(([, digits]) => Number(digits));
}

/** What goes with a versioned answer, changed or not. */
export const versionHeaders = (version: number) => ({ ETag: `"v${version}"`, "Cache-Control": "no-cache" });
