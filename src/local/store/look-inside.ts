/** A look into a store that is served: every stall is asked for its line by its own crew's key. */
import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { deserialize } from "node:v8";
import { z } from "zod";
import { Keys } from "../../http/doors/keys.ts";
import { FairId, StallId } from "../../model/basics/ids.ts";
import type { Problem } from "../../model/basics/problem.ts";
import type { QueueView } from "../../model/orders/queue.ts";
import type { Client } from "../client.ts";

const FairFacts = z.looseObject({ fair: FairId });
const StallFacts = z.looseObject({ stall: StallId, name: z.string(), generation: z.int() });

type Kept = {
  readonly fair: FairId;
  readonly stall: StallId;
  readonly name: string;
  readonly generation: number;
};

/** A row as the runtime keeps it: the value is serialised as V8 does. */
const decoded = (row: Record<string, unknown>): unknown => deserialize(row["value"] as Uint8Array); // a blob column

/** The stalls that the fairs of a store have; a fair's file without a fair is the health check's. */
async function stallsIn(fairs: string): Promise<readonly Kept[]> {
  const files = (await readdir(fairs).catch(() => [])).filter(
    (name) => name.endsWith(".sqlite") && name !== "metadata.sqlite",
  );
  return files.flatMap((file) => {
    const database = new DatabaseSync(join(fairs, file), { readOnly: true });
    try {
      const [row] = database.prepare("SELECT value FROM _cf_KV WHERE key = 'fair'").all();
      if (row === undefined) return [];
      const { fair } = FairFacts.parse(decoded(row));
      const stalls = database.prepare("SELECT value FROM _cf_KV WHERE key GLOB 'stall:*' ORDER BY key").all();
      return stalls.map((one) => ({ fair, ...StallFacts.parse(decoded(one)) }));
    } finally {
      database.close();
    }
  });
}

export type Opened = {
  readonly fair: string;
  readonly name: string;
  /** Garments waiting, pressing and ready; null: the stall opens and has no menu yet. */
  readonly counts: QueueView["counts"] | null;
};

/** Opens each stall of a served store; throws at the first that does not. `fairs` is the folder of the fairs' files. */
export async function openStalls(
  anyone: Client,
  fairs: string,
  keySecret: string,
): Promise<readonly Opened[]> {
  const keys = new Keys(keySecret);
  const opened: Opened[] = [];
  for (const { fair, stall, name, generation } of await stallsIn(fairs)) {
    const crew = anyone.withKey(await keys.crew(fair, stall, generation));
    const { status, body } = await crew.get<QueueView & Problem>(`/v1/fairs/${fair}/stalls/${stall}/queue`);
    const hasNoMenu = body.type === "/problems/no-menu";
    if (status !== 200 && !hasNoMenu)
      throw new Error(`The stall ${name} does not open: ${body.detail ?? status}`);
    opened.push({ fair, name, counts: hasNoMenu ? null : body.counts });
  }
  return opened;
}
