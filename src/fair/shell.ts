/** What every call on a fair's object shares: its rows, and the organiser's keys. */
import { DurableObject } from "cloudflare:workers";
import type { CreateFair } from "../model/fair.ts";
import type { StallId } from "../model/ids.ts";
import type { Currency } from "../model/money.ts";
import { carryOut } from "../tracing/calls.ts";
import { mayBeOpened } from "./records.ts";

export type FairRow = CreateFair & {
  readonly generation: number;
  readonly earlierUntil: number;
  /** The write that made it, so that its repeat is known. */
  readonly madeBy: WriteKey;
  /** The write that gave it its present key. */
  readonly rotatedBy: string | null;
  /** How often its name or hours were changed; absent while they are as it was made. */
  readonly edition?: number;
  /** The write that changed them last, so that its repeat is known. */
  readonly changedBy?: WriteKey;
};
export type StallRow = {
  readonly stall: StallId;
  readonly name: string;
  /** How many stalls there were before it: its place in lists, the same all day. */
  readonly added: number;
  readonly generation: number;
  readonly earlierUntil: number;
  /** The write that gave it its present key. */
  readonly rotatedBy: string | null;
  /** How often the row was written: the sum over the stalls is the version of the pace. */
  readonly changes: number;
  readonly heardAt: number | null;
  readonly crewAt: number | null;
  readonly paused: boolean;
  readonly shares: Currency | null;
  readonly version: number;
  readonly backlog: number;
  readonly soldOut: number;
  /** When all that waits is expected to be pressed. */
  readonly backlogEnds: number | null;
};

/** A write and its body, as the front door names it. */
export type WriteKey = { readonly scope: string; readonly fingerprint: string };

export abstract class FairShell extends DurableObject {
  #stalls: Map<StallId, StallRow> | null = null;

  constructor(...given: ConstructorParameters<typeof DurableObject<Cloudflare.Env>>) {
    super(...given);
    mayBeOpened(this.ctx.storage.kv);
  }

  protected get kv() {
    return this.ctx.storage.kv;
  }

  protected fairRow(): FairRow | undefined {
    return this.kv.get<FairRow>("fair");
  }

  /** Every stall's row, read once and then kept up. */
  get #stallMap(): Map<StallId, StallRow> {
    if (this.#stalls === null) {
      const rows = [...this.kv.list<StallRow>({ prefix: "stall:" })].map(([, row]) => row);
      rows.sort((one, other) => one.added - other.added);
      this.#stalls = new Map(rows.map((row) => [row.stall, row]));
    }
    return this.#stalls;
  }

  protected stallRow(stall: StallId): StallRow | undefined {
    return this.#stallMap.get(stall);
  }

  protected stallRows(): readonly StallRow[] {
    return [...this.#stallMap.values()];
  }

  /** Writes a stall's row, with more rows where given, in one transaction. */
  protected saveStall(given: StallRow, more: readonly (readonly [key: string, value: unknown])[] = []): void {
    const row = { ...given, changes: given.changes + 1 };
    this.ctx.storage.transactionSync(() => {
      this.kv.put(`stall:${row.stall}`, row);
      for (const [key, value] of more) this.kv.put(key, value);
    });
    this.#stallMap.set(row.stall, row);
  }

  /** A call that carries the id of the request it serves. */
  under(request: string, method: string, values: readonly unknown[]): Promise<unknown> {
    return carryOut(this, request, method, values);
  }

  /** Whether organiser keys of this generation still work. */
  admits(generation: number): boolean {
    return this.keyWorks(generation);
  }

  /** Whether an organiser key of this generation still works. */
  protected keyWorks(generation: number): boolean {
    const fair = this.fairRow();
    if (fair === undefined) return false;
    return (
      generation === fair.generation || (generation === fair.generation - 1 && Date.now() < fair.earlierUntil)
    );
  }
}
