/** The fair's gateway: its mapping, the day's budget of segments, and the signatures that did not fit. */
import type { GatewayMapping } from "../model/gateway.ts";
import { PLAIN } from "../texting/mappings.ts";
import type { Rows } from "./rows.ts";

export type GatewayRow = { readonly version: number; readonly mapping: GatewayMapping };
type Spent = { readonly day: string; readonly segments: number };

const UNSET: GatewayRow = { version: 1, mapping: PLAIN };
/** Segments a stall is granted at a time, so that sending costs no call a text. */
const SLICE = 60;

export class TextDesk {
  readonly #rows: Rows;
  #gateway: GatewayRow | null = null;
  /** Counted in memory and written with the next report: a flood of them costs no writes. */
  #badSignatures: number | null = null;
  #grown = false;

  constructor(rows: Rows) {
    this.#rows = rows;
  }

  get gateway(): GatewayRow {
    this.#gateway ??= this.#rows.get<GatewayRow>("gateway") ?? UNSET;
    return this.#gateway;
  }

  /** Sets the mapping; the same again is the same version. */
  setMapping(mapping: GatewayMapping): GatewayRow {
    const before = this.gateway;
    if (JSON.stringify(before.mapping) === JSON.stringify(mapping)) return before;
    const after: GatewayRow = { version: before.version + 1, mapping };
    this.#rows.put("gateway", after);
    this.#gateway = after;
    return after;
  }

  /** Segments granted on a day. */
  spent(day: string): number {
    const spent = this.#rows.get<Spent>("segments");
    return spent?.day === day ? spent.segments : 0;
  }

  /** Grants segments of the day's cap: what is asked for and some to spare, or what is left. */
  grant(wanted: number, day: string): number {
    const most = this.gateway.mapping.limits.segmentsPerDay;
    const spent = this.spent(day);
    // A small cap is handed out in small slices, or one stall would hold what another needs.
    const slice = Math.max(wanted, Math.min(SLICE, Math.floor(most / 50)));
    const granted = Math.max(0, Math.min(slice, most - spent));
    if (granted > 0) this.#rows.put("segments", { day, segments: spent + granted } satisfies Spent);
    return granted;
  }

  get badSignatures(): number {
    this.#badSignatures ??= this.#rows.get<number>("bad-signatures") ?? 0;
    return this.#badSignatures;
  }

  countBadSignature(): void {
    this.#badSignatures = this.badSignatures + 1;
    this.#grown = true;
  }

  /** The row of the count where it has grown since it was last asked for. */
  unwritten(): readonly (readonly [key: string, value: unknown])[] {
    if (!this.#grown) return [];
    this.#grown = false;
    return [["bad-signatures", this.badSignatures]];
  }
}
