/** Loads a whole stall into an empty place, part by part and out of sight. It appears once all parts have come. */

import type { StallPart } from "../../../model/accounts/whole-stall.ts";
import type { CustomerId } from "../../../model/basics/ids.ts";
import { ok, refused } from "../../../model/basics/result.ts";
import type { WriteKey } from "../../../model/basics/write-key.ts";
import { type Answer, type FileFault, type Refusal, wrongStage } from "../../../model/orders/refusal.ts";
import type { Instant } from "../../../time/instants.ts";
import type { Write } from "../../state/table.ts";
import type { Homes } from "../../storage/homes.ts";
import { lastRows, partRows } from "../../storage/loading.ts";
import type { Known } from "../../storage/people.ts";
import { type PictureOf, writing } from "../../storage/picture-bytes.ts";
import { recorded, recording } from "../../storage/recorded-answers.ts";
import { write } from "../../storage/records.ts";
import type { Transactions } from "../../transact.ts";

const inUse: Refusal = wrongStage("this stall", "set up already", "empty: without a menu yet");

/** The name of an upload that comes as one file. */
const AT_ONCE = "at-once";

/** A number's keyed hash at this place, and the customer that the number writes as. */
export type NumberOf = readonly [number: CustomerId, customer: CustomerId];

/**
 * A part of a file as the front door has parsed it. `text` is a StallPart as JSON in UTF-8; its pictures are separate.
 */
export type ReadPart = {
  readonly text: Uint8Array;
  readonly numbers: readonly NumberOf[];
  readonly pictures: readonly PictureOf[];
};

export type PartsTaken = { readonly parts: number };
export type WholeTaken = { readonly version: number };

/** Why nothing can be loaded here; null if loading is possible. */
function obstacle(transactions: Transactions, generation: number): Answer<never> | null {
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  const { identity, menu } = transactions.unit.state;
  if (identity === null) return refused({ code: "no-such-stall" });
  return menu === null ? null : refused(inUse);
}

/** Thrown to roll the transaction back, then turned into a refusal. */
class Unreadable extends Error {
  readonly fault: FileFault;

  constructor(fault: FileFault) {
    super(fault.code);
    this.fault = fault;
  }
}

function unlessUnreadable<T>(work: () => T): Answer<T> {
  try {
    return ok(work());
  } catch (error) {
    if (error instanceof Unreadable) return refused({ code: "unreadable-file", fault: error.fault });
    throw error;
  }
}

function writePart(homes: Homes, { text, numbers, pictures }: ReadPart): void {
  const store = homes.loadingStore;
  // The front door parsed this part and serialised it again.
  const rows = partRows(store, JSON.parse(new TextDecoder().decode(text)) as StallPart);
  if (!rows.ok) throw new Unreadable(rows.refusal);
  // Numbers have other keyed hashes at this place; conversations and orders follow their numbers.
  const known = numbers.map(([number, customer]): Write => [`known:${number}`, { customer } satisfies Known]);
  write(store, [...rows.value, ...known, ...pictures.map(({ picture }) => writing(picture))]);
}

/**
 * Stores a part of an upload. Parts count from 0. The first part begins the upload and ends any other; a repeated part
 * changes nothing.
 */
export function takePart(
  transactions: Transactions,
  generation: number,
  { upload, part }: { readonly upload: string; readonly part: number },
  read: ReadPart,
): Answer<PartsTaken> {
  const refusal = obstacle(transactions, generation);
  if (refusal !== null) return refusal;
  const now = transactions.now();
  const under = transactions.loading;
  const have = under?.upload === upload ? under.parts : 0;
  if (part < have) return ok({ parts: have });
  if (part > have) return refused(wrongStage(`part ${part} of that file`, "ahead", `part ${have}`));
  return unlessUnreadable(() =>
    transactions.rehouse(now, (homes) => {
      if (part === 0) homes.begin(upload, now);
      writePart(homes, read);
      homes.noteParts(part + 1, now);
      return { parts: part + 1 };
    }),
  );
}

/** Makes the uploaded parts this place's stall, under this place's name. */
export function takeWhole(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  { upload, parts }: { readonly upload: string; readonly parts: number },
): Answer<WholeTaken> {
  return once(transactions, generation, key, (now) => {
    const { loading } = transactions;
    const have = loading?.upload === upload ? loading.parts : 0;
    if (have !== parts)
      return refused(wrongStage("that file", `here with ${have} parts`, `here with ${parts}`));
    return unlessUnreadable(() =>
      transactions.rehouse(now, (homes) => moveIn(transactions, homes, key, now)),
    );
  });
}

/** Loads a small file that was sent at once. */
export function takeEverything(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  read: ReadPart,
): Answer<WholeTaken> {
  return once(transactions, generation, key, (now) =>
    unlessUnreadable(() =>
      transactions.rehouse(now, (homes) => {
        homes.begin(AT_ONCE, now);
        writePart(homes, read);
        return moveIn(transactions, homes, key, now);
      }),
    ),
  );
}

function once(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  work: (now: Instant) => Answer<WholeTaken>,
): Answer<WholeTaken> {
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  const now = transactions.now();
  const before = recorded(transactions.store, key, now) as Answer<WholeTaken> | null; // this route's own answers
  return before ?? obstacle(transactions, generation) ?? work(now);
}

function moveIn(
  transactions: Transactions,
  homes: Homes,
  key: WriteKey,
  now: Instant,
): { readonly version: number } {
  const { identity } = transactions.unit.state;
  if (identity === null) throw new Error("an empty place has its identity");
  const store = homes.loadingStore;
  const rows = lastRows(store, identity, now);
  if (!rows.ok) throw new Unreadable(rows.refusal);
  const answer = { version: rows.value.version };
  write(store, [...rows.value.writes, recording(key, ok(answer), now)]);
  homes.moveIn();
  return answer;
}
