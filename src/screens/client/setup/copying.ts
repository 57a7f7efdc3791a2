/** The menu of an earlier fair, read with the crew link that was given for it. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import { apiAt, detailOf } from "../kit/api.ts";
import { local } from "../kit/texts-kept.ts";

type Copied = { readonly menu: Menu } | { readonly why: string };

/** Another stall and its crew key. */
export type Link = { readonly place: string; readonly key: string };

/** The address and the key of a crew link; null if the text is not one. */
export function linkParts(link: string): Link | null {
  const match = /\/crew\/([a-z0-9-]+\/[a-z0-9-]+)[^#]*#(?:.*&)?key=([\w.-]+)/.exec(link.trim());
  const [, place, key] = match ?? [];
  return place === undefined || key === undefined ? null : { place, key };
}

/** Other stalls this browser has a crew key of. */
export function knownStalls(but: string): readonly Link[] {
  return local.entries().flatMap(([name, key]) => {
    const place = /^key crew ([a-z0-9-]+\/[a-z0-9-]+)$/.exec(name)?.[1];
    return place === undefined || `crew ${place}` === but ? [] : [{ place, key }];
  });
}

export async function menuOf({ place, key }: Link): Promise<Copied> {
  const [fair, stall] = place.split("/");
  const reply = await apiAt(`/v1/fairs/${fair}/stalls/${stall}`, () => key)("/menu/whole");
  if (reply.status !== 200) return { why: detailOf(reply) };
  const menu = reply.body as Menu | null; // as the route documents
  return menu === null ? { why: "That stall has no menu." } : { menu };
}
