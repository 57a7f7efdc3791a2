/** The fair's side of the texts: its gateway, its budget, and which stall a text is for. */
import type { GatewayMapping } from "../model/gateway.ts";
import type { StallId } from "../model/ids.ts";
import type { PhoneNumber } from "../model/order.ts";
import { bindingsOf } from "../texting/bindings.ts";
import { opaqueIdOf } from "../texting/keyed-hash.ts";
import { changedByAdding, ownerOf, type Sending, sendingFor } from "../texting/sending.ts";
import { dayOf } from "../time/fair-day.ts";
import type { Segments } from "./reports.ts";
import { type FairRow, FairShell } from "./shell.ts";
import { type Destination, type Inbound, Switchboard } from "./switchboard.ts";
import { type GatewayRow, TextDesk } from "./text-desk.ts";

/** Where a text goes, with what the whole fair knows of its sender. */
export type Route = {
  readonly destination: Destination;
  readonly stopped: boolean;
  /** Whether stalls may not have heard of that yet. */
  readonly telling: boolean;
  /** The gateway's version as the stall should have it. */
  readonly gateway: number;
};

const DAY = 24 * 60 * 60 * 1000;
/** How long after the last closing the fair still knows who wrote to whom. */
const ERASED_AFTER = 30 * DAY;
const ERASED_AT_ONCE = 500;

const erasedAt = ({ openings }: FairRow): number =>
  Math.max(Math.max(...openings.map(({ closes }) => Date.parse(closes))) + ERASED_AFTER, Date.now() + DAY);

export abstract class TextingFair extends FairShell {
  protected readonly desk = new TextDesk(this.ctx.storage.kv);
  readonly #switchboard = new Switchboard(this.ctx.storage.kv);
  #erasing = false;

  /** Grows whenever the mapping or the number of stalls does, and so whether a number is shared. */
  protected get gatewayVersion(): number {
    return this.desk.gateway.version + this.stallRows().length;
  }

  /** How the fair's gateway speaks. */
  gateway(): GatewayRow {
    return this.desk.gateway;
  }

  /** The same for the organiser; null where the key is old or there is no such fair. */
  gatewayFor(generation: number): GatewayRow | null {
    return this.keyWorks(generation) ? this.desk.gateway : null;
  }

  /** A text's signature did not fit the mapping of that version: counted, or the newer mapping to try. */
  badSignature(version: number): GatewayRow | null {
    if (this.fairRow() === undefined) return null;
    const { gateway } = this.desk;
    if (gateway.version !== version) return gateway;
    this.desk.countBadSignature();
    return null;
  }

  /** Sets the gateway's mapping, its faults looked for before; null where there is no such fair. */
  setGateway(generation: number, mapping: GatewayMapping): GatewayRow | "old-key" | null {
    if (this.fairRow() === undefined) return null;
    return this.keyWorks(generation) ? this.desk.setMapping(mapping) : "old-key";
  }

  /** What one stall needs to send by itself. */
  sending(stall: StallId): Sending {
    const stalls = this.stallRows().map((row) => row.stall);
    return sendingFor(this.desk.gateway.mapping, stall, stalls, this.gatewayVersion);
  }

  /** The same for every stall. */
  sendings(): { readonly stall: StallId; readonly sending: Sending }[] {
    return this.stallRows().map(({ stall }) => ({ stall, sending: this.sending(stall) }));
  }

  /** The same for those stalls only whose texts change as one is added. */
  sendingsWith(added: StallId): { readonly stall: StallId; readonly sending: Sending }[] {
    const stalls = this.stallRows().map(({ stall }) => stall);
    const { numbers } = this.desk.gateway.mapping;
    return changedByAdding(numbers, added, stalls).map((stall) => ({ stall, sending: this.sending(stall) }));
  }

  /** Grants a stall segments of the day's cap. */
  grant(wanted: Segments): Segments {
    return this.desk.grant(wanted, this.#today());
  }

  #today(): string {
    return dayOf(Date.now(), this.fairRow()?.timeZone ?? "UTC");
  }

  /** Routes a text; `to` is the number it was sent to, where the gateway says. */
  async route(inbound: Omit<Inbound, "own">, to: string | null): Promise<Route> {
    const fair = this.fairRow();
    const stalls = fair === undefined ? [] : this.stallRows();
    const { numbers } = this.desk.gateway.mapping;
    const owner = to === null ? null : ownerOf(numbers, to, bindingsOf(this.env as object));
    const own = stalls.some(({ stall }) => stall === owner) ? owner : null;
    if (fair !== undefined) await this.#eraseLater(fair);
    const destination: Destination =
      stalls.length === 0
        ? { to: "nobody" }
        : this.ctx.storage.transactionSync(() =>
            this.#switchboard.route({ ...inbound, own }, stalls, Date.now()),
          );
    const { stopped, telling = false } = this.#switchboard.sender(inbound.sender);
    return { destination, stopped, telling, gateway: this.gatewayVersion };
  }

  /** Puts down that a number wants no more texts, or wants them again; gives the stalls to be told. */
  setStopped(sender: string, stopped: boolean): readonly StallId[] {
    return this.#switchboard.setStopped(sender, stopped);
  }

  /** Those of the senders, by their keyed hashes, that want no texts. */
  stopped(senders: readonly string[]): readonly string[] {
    return this.#switchboard.stoppedAmong(senders);
  }

  /** Those of the numbers that want no texts; asked at the moment of sending. The numbers are not kept. */
  async stoppedAmong(phones: readonly PhoneNumber[]): Promise<readonly PhoneNumber[]> {
    const fair = this.fairRow()?.fair;
    const { KEY_SECRET: secret } = this.env as { readonly KEY_SECRET?: string }; // set in every deployment
    if (fair === undefined || secret === undefined) throw new Error("the fair cannot tell who said STOP");
    const hashes = await Promise.all(phones.map((phone) => opaqueIdOf(secret, `sender/${fair}/${phone}`)));
    const stopped = new Set(this.stopped(hashes));
    return phones.filter((_, index) => stopped.has(hashes[index] ?? ""));
  }

  /** Every stall has been told of it. */
  toldStopped(sender: string, stopped: boolean): void {
    this.#switchboard.toldStopped(sender, stopped);
  }

  /** Sets the alarm that erases who wrote to whom, where none is set. */
  async #eraseLater(fair: FairRow): Promise<void> {
    if (this.#erasing) return;
    this.#erasing = true;
    if ((await this.ctx.storage.getAlarm()) === null) await this.ctx.storage.setAlarm(erasedAt(fair));
  }

  /** Moves that alarm, where one is set, to what the fair's new hours make of it. */
  protected async eraseByNewHours(fair: FairRow): Promise<void> {
    if ((await this.ctx.storage.getAlarm()) !== null) await this.ctx.storage.setAlarm(erasedAt(fair));
  }

  override async alarm(): Promise<void> {
    this.#erasing = this.#switchboard.erase(ERASED_AT_ONCE);
    if (this.#erasing) await this.ctx.storage.setAlarm(Date.now());
  }
}
