/** Pictures of designs: set, removed, listed and served. */

import type { DesignId } from "../../model/basics/ids.ts";
import { ok } from "../../model/basics/result.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import {
  MOST_PICTURES_BYTES,
  type PictureFacts,
  type PictureMark,
  type PicturesView,
} from "../../model/garment/picture.ts";
import type { Answer } from "../../model/orders/refusal.ts";
import type { KeptPicture } from "../../pictures/kept-picture.ts";
import type { StallState } from "../state/state.ts";
import { bytesOf, forgetting, hashesIn, writing } from "../storage/picture-bytes.ts";
import type { Transactions } from "../transact.ts";

export function picturesView({ pictures }: StallState): PicturesView {
  const all = [...pictures.keys()].flatMap((key) => {
    const picture = pictures.get(key);
    return picture === undefined ? [] : [{ design: key as DesignId, picture }]; // the table's keys are designs' ids
  });
  const bytes = all.reduce((sum, { picture }) => sum + picture.bytes, 0);
  return { pictures: all, bytes, mostBytes: MOST_PICTURES_BYTES };
}

/** Sets or removes (null) a design's picture. Answers with all pictures. */
export function setPicture(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  design: DesignId,
  kept: KeptPicture | null,
): Answer<PicturesView> {
  const before = hashesIn(transactions.unit.state);
  const command = { type: "set-picture", design, picture: kept?.facts ?? null } as const;
  return transactions.command(generation, key, command, ({ state }, _menu, _now, also) => {
    also([...(kept === null ? [] : [writing(kept)]), ...forgetting(before, state)]);
    return picturesView(state);
  });
}

export type SeenPicture = { readonly type: PictureFacts["type"]; readonly bytes: Uint8Array };

/** A picture by its hash or the first digits of it; null if no design has it. */
export function seePicture({ unit, store }: Transactions, mark: PictureMark): Answer<SeenPicture | null> {
  const facts = [...unit.state.pictures.values()].find(({ hash }) => hash.startsWith(mark));
  const bytes = facts && bytesOf(store, facts.hash);
  return ok(facts === undefined || bytes === undefined ? null : { type: facts.type, bytes });
}
