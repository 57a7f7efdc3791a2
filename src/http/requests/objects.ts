/** Reaching the objects, and a stall's version as an entity tag. */
import type { Context } from "hono";
import type { FairId, StallId } from "../../model/basics/ids.ts";
import type { Versions } from "../../stall/calls/versions.ts";
import { carrying } from "../../tracing/calls.ts";
import type { App } from "./env.ts";

/** A stall's object; its calls carry the request's id. */
export const stallOf = (
  c: Context<App>,
  { fair, stall }: { readonly fair: FairId; readonly stall: StallId },
) => carrying(c.env.STALL.getByName(`${fair}/${stall}`), c.get("request"));

/** A fair's object, in the same way. */
export const fairOf = (c: Context<App>, fair: FairId) =>
  carrying(c.env.FAIR.getByName(fair), c.get("request"));

/**
 * The versions a reader has, by If-None-Match; the comparison is weak (RFC 9110, section 13.1.2), and `*`
 * stands for any.
 */
export function versionsOf(c: Context<App>): Versions {
  const header = c.req.header("If-None-Match") ?? "";
  if (header.trim() === "*") return "any";
  return [...header.matchAll(/(?:W\/)?"v(\d{1,15})"/g)].map(([, digits]) => Number(digits));
}

/** The headers of a versioned answer, changed or not. */
export const versionHeaders = (version: number) => ({ ETag: `"v${version}"`, "Cache-Control": "no-cache" });
