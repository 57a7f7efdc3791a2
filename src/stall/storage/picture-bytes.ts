/** The bytes of pictures: rows beside the state, one for each hash, read only when somebody looks at them. */
import { DesignId } from "../../model/basics/ids.ts";
import type { CarriedPicture, PictureFacts, PictureHash } from "../../model/garment/picture.ts";
import { base64Of } from "../../pictures/base64.ts";
import type { KeptPicture } from "../../pictures/kept-picture.ts";
import { PICTURE, type StallState } from "../state/state.ts";
import type { Write } from "../state/table.ts";
import type { Store } from "./records.ts";

/** A picture with the design it is of. */
export type PictureOf = { readonly design: DesignId; readonly picture: KeptPicture };

const bytesKey = (hash: PictureHash): string => `picture-bytes:${hash}`;

export const writing = ({ facts, bytes }: KeptPicture): Write => [bytesKey(facts.hash), bytes];

/** The bytes of a picture, or undefined if there is none of that hash. */
export const bytesOf = (store: Store, hash: PictureHash): KeptPicture["bytes"] | undefined =>
  store.get(bytesKey(hash)) as KeptPicture["bytes"] | undefined; // rows under this prefix are written above only

/** The hashes that designs have now; several designs may share one. */
export const hashesIn = (state: StallState): ReadonlySet<PictureHash> =>
  new Set([...state.pictures.values()].map(({ hash }) => hash));

/** Deletes the bytes that a design had before and no design has now. */
export function forgetting(before: ReadonlySet<PictureHash>, state: StallState): readonly Write[] {
  const now = hashesIn(state);
  return [...before].filter((hash) => !now.has(hash)).map((hash): Write => [bytesKey(hash), undefined]);
}

/** Every picture that a design has, with its bytes. */
export const storedPictures = (store: Store): readonly PictureOf[] =>
  [...store.list({ prefix: PICTURE })].flatMap(
    ([key]) => storedPicture(store, key.slice(PICTURE.length)) ?? [],
  );

function storedPicture(store: Store, design: string): PictureOf | null {
  const facts = store.get(PICTURE + design) as PictureFacts | undefined; // rows under this prefix are the state's own
  const bytes = facts && bytesOf(store, facts.hash);
  return facts === undefined || bytes === undefined
    ? null
    : { design: DesignId.parse(design), picture: { facts, bytes } };
}

/** A design's picture with its bytes as text, for export; null if it has none. */
export function carriedPicture(store: Store, design: string): CarriedPicture | null {
  const stored = storedPicture(store, design);
  return stored === null ? null : { design: stored.design, base64: base64Of(stored.picture.bytes) };
}

export const carriedPictures = (store: Store): CarriedPicture[] =>
  [...store.list({ prefix: PICTURE })].flatMap(
    ([key]) => carriedPicture(store, key.slice(PICTURE.length)) ?? [],
  );
