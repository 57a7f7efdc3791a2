/** The fair's gateway: its mapping, the day's budget of segments, and the signatures that did not fit. */
import type { GatewayMapping } from "../model/fair/gateway.ts";
import { PLAIN } from "../texting/mapping/mappings.ts";
import type { SegmentGrant } from "./reports.ts";
import type { Rows } from "./rows.ts";

export type GatewayRow = { readonly version: number; readonly mapping: GatewayMapping };
type Spent = {
  readonly day: string;
  readonly segments: number;
  /** The part of them for texts about a number's own orders. */
  readonly own?: number;
};

const UNSET: GatewayRow = { version: 1, mapping: PLAIN };
/** Segments a stall is granted at a time, so that sending costs no call a text. */
const SLICE = 60;
/** The part of the day's cap that only texts about a number's own orders may use: strangers who ask leave it alone. */
const OWN_SHARE = 1 / 3;

export class GatewayRows {
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
  spent(day: string): SegmentGrant {
    const spent = this.#rows.get<Spent>("segments");
    if (spent?.day !== day) return { others: 0, own: 0 };
    const { segments, own = 0 } = spent;
    return { others: segments - own, own };
  }

  /** Grants segments of the day's cap: the wanted number and some to spare, or the rest. */
  grant(wanted: SegmentGrant, day: string): SegmentGrant {
    const most = this.gateway.mapping.limits.segmentsPerDay;
    const spent = this.spent(day);
    // A small cap is handed out in small slices, or one stall would hold what another needs.
    const slice = Math.min(SLICE, Math.floor(most / 50));
    const asked = (segments: number) => (segments === 0 ? 0 : Math.max(segments, slice));
    const left = most - spent.others - spent.own;
    const own = Math.max(0, Math.min(asked(wanted.own), left));
    const forOthers = Math.floor(most * (1 - OWN_SHARE)) - spent.others;
    const others = Math.max(0, Math.min(asked(wanted.others), left - own, forOthers));
    if (own + others > 0) {
      const segments = spent.others + spent.own + others + own;
      this.#rows.put("segments", { day, segments, own: spent.own + own } satisfies Spent);
    }
    return { others, own };
  }

  get badSignatures(): number {
    this.#badSignatures ??= this.#rows.get<number>("bad-signatures") ?? 0;
    return this.#badSignatures;
  }

  countBadSignature(): void {
    this.#badSignatures = this.badSignatures + 1;
    this.#grown = true;
  }

  /** The row of the count if it has grown since the last call. */
  unwritten(): readonly (readonly [key: string, value: unknown])[] {
    if (!this.#grown) return [];
    this.#grown = false;
    return [["bad-signatures", this.badSignatures]];
  }
}
