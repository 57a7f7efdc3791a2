/** Reaching a stall's object, and its version as an entity tag. */
import type { Context } from "hono";
import type { FairId, StallId } from "../model/ids.ts";
import type { App } from "./env.ts";

export const stallOf = (
  c: Context<App>,
  { fair, stall }: { readonly fair: FairId; readonly stall: StallId },
) => c.env.STALL.getByName(`${fair}/${stall}`);

/** A version as an entity tag. */
export const versionTag = (version: number): string => `"v${version}"`;

/**
 * The version the reader has, by If-None-Match; null where it names none. The comparison is weak, as RFC
 * 9110 section 13.1.2 has it; a list of tags may hold one that matches.
 */
export function versionFrom(c: Context<App>, current?: number): number | null {
  const header = c.req.header("If-None-Match");
  if (header === undefined) return null;
  const versions = [...header.matchAll(/(?:W\/)?"v(\d{1,15})"/g)].map(([, digits]) => Number(digits));
  return versions.find((version) => version === current) ?? versions.at(-1) ?? null;
}
