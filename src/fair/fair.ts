/** One fair as a Durable Object: its stalls, what they report, and which stall a sender is talking to. */

import { DurableObject } from "cloudflare:workers";
import type { StallId } from "../model/basics/ids.ts";
import { ok, refused } from "../model/basics/result.ts";
import type { WriteKey } from "../model/basics/write-key.ts";
import type { StallContact, StallContacts } from "../model/fair/contacts.ts";
import type { ChangeFair, CreateFair } from "../model/fair/fair.ts";
import type { FairAnswer } from "../model/fair/fair-refusal.ts";
import type { GatewayMapping } from "../model/fair/gateway.ts";
import type {
  Announce,
  AnnouncementId,
  OrderStop,
  OrganiserNews,
  SentAnnouncement,
} from "../model/fair/organising.ts";
import type { SeenFair } from "../model/fair/seen.ts";
import type { ThroughputQuery } from "../model/fair/throughput.ts";
import type { PhoneNumber } from "../model/orders/order.ts";
import { bindingsOf } from "../texting/bindings.ts";
import type { Sending } from "../texting/sending/sending.ts";
import { carryOut } from "../tracing/calls.ts";
import { ring, type StallOf, tellStalls } from "./calls/alarm.ts";
import * as organiser from "./calls/organiser.ts";
import * as organiserWord from "./calls/organiser-word.ts";
import { PaceReader, report, type TaggedPace } from "./calls/pace.ts";
import { seenFair } from "./calls/seen.ts";
import * as texts from "./calls/texts.ts";
import type { GatewayRow } from "./gateway-rows.ts";
import type { HearsFair, SegmentGrant, StallReport, Told } from "./reports.ts";
import type { StopList, Stops } from "./stops.ts";
import type { Inbound } from "./text-routing.ts";
import { FairTransactions } from "./transact.ts";

export type FairEnv = {
  readonly STALL: { readonly getByName: (name: string) => HearsFair };
  readonly KEY_SECRET?: string;
};

export class Fair extends DurableObject<FairEnv> {
  protected readonly transactions = new FairTransactions(this.ctx.storage);
  readonly #pace = new PaceReader(this.transactions);
  readonly #stallOf: StallOf = ({ fair }, { stall }) => this.env.STALL.getByName(`${fair}/${stall}`);

  /** A call that carries the id of the request it serves. */
  under(request: string, method: string, values: readonly unknown[]): Promise<unknown> {
    return carryOut(this, request, method, values);
  }

  /** Writes and reads one row, so that a health check has really been to storage. */
  touch(): number {
    const { kv } = this.transactions;
    kv.put("touched", (kv.get<number>("touched") ?? 0) + 1);
    return kv.get<number>("touched") ?? 0;
  }

  override alarm(): Promise<void> {
    return ring(this.transactions, this.#stallOf);
  }

  // ---- the owner and the organiser

  create(key: WriteKey, request: CreateFair): FairAnswer<number> {
    return organiser.create(this.transactions, key, request);
  }

  /** Whether organiser keys of this generation still work. */
  admits(generation: number): boolean {
    return this.transactions.admits(generation);
  }

  /** The fair's name, clock and hours; null if there is no such fair. */
  facts(): organiser.FairFacts | null {
    const row = this.transactions.fair();
    return row === undefined ? null : organiser.factsOf(row);
  }

  change(
    generation: number,
    key: WriteKey,
    request: ChangeFair,
    basedOn: number | null,
  ): FairAnswer<organiser.FairFacts> {
    return organiser.change(this.transactions, generation, key, request, basedOn);
  }

  newKey(key: WriteKey, overlapMinutes: number): FairAnswer<number> {
    return organiser.newKey(this.transactions, key, overlapMinutes);
  }

  addStall(generation: number, stall: StallId, name: string): FairAnswer<number> {
    return organiser.addStall(this.transactions, generation, stall, name);
  }

  newStallKey(generation: number, key: WriteKey, stall: StallId, overlapMinutes: number): FairAnswer<number> {
    return organiser.newStallKey(this.transactions, generation, key, stall, overlapMinutes);
  }

  /** Sends news to stalls before the change is answered; what fails, or is beyond 40 stalls, is left to the alarm. */
  tellStalls(): Promise<void> {
    return tellStalls(this.transactions, this.#stallOf);
  }

  // ---- what the organiser says

  organiserNews(generation: number): FairAnswer<OrganiserNews> {
    return organiserWord.news(this.transactions, generation);
  }

  setOrderStop(generation: number, stop: OrderStop | null): FairAnswer<OrganiserNews> {
    return organiserWord.setOrderStop(this.transactions, generation, stop);
  }

  announce(
    generation: number,
    key: WriteKey,
    id: AnnouncementId,
    request: Announce,
  ): FairAnswer<SentAnnouncement> {
    return organiserWord.announce(this.transactions, generation, key, id, request);
  }

  takeBackAnnouncement(generation: number, id: AnnouncementId): FairAnswer<OrganiserNews> {
    return organiserWord.takeBackAnnouncement(this.transactions, generation, id);
  }

  contacts(generation: number): FairAnswer<StallContacts> {
    return organiserWord.contacts(this.transactions, generation);
  }

  setContact(generation: number, stall: StallId, contact: StallContact | null): FairAnswer<StallContacts> {
    return organiserWord.setContact(this.transactions, generation, stall, contact);
  }

  /** What visitors see of the fair. */
  seen(): FairAnswer<SeenFair> {
    return seenFair(this.transactions, Date.now());
  }

  // ---- the stalls' pace

  report(reported: StallReport): Told {
    return report(this.transactions, reported);
  }

  throughput(generation: number, query: ThroughputQuery, have: readonly string[]): FairAnswer<TaggedPace> {
    return this.#pace.read(generation, query, have);
  }

  // ---- texts

  /** The fair's gateway mapping. */
  gateway(): GatewayRow {
    return this.transactions.gatewayRows.gateway;
  }

  /** The same for the organiser. */
  gatewayFor(generation: number): FairAnswer<GatewayRow> {
    const { transactions } = this;
    return transactions.admits(generation)
      ? ok(transactions.gatewayRows.gateway)
      : refused({ code: "old-key" });
  }

  badSignature(version: number): GatewayRow | null {
    return texts.badSignature(this.transactions, version);
  }

  setGateway(
    generation: number,
    mapping: GatewayMapping,
    host: string | null = null,
  ): FairAnswer<GatewayRow> {
    return texts.setGateway(this.transactions, generation, mapping, host, bindingsOf(this.env));
  }

  /** `sender` is the number's keyed hash, as texts come in with it. */
  tryGateway(
    generation: number,
    key: WriteKey,
    to: PhoneNumber,
    sender: string,
  ): Promise<FairAnswer<texts.Try>> {
    return texts.tryGateway(this.transactions, generation, key, { to, sender }, this.env.KEY_SECRET);
  }

  sending(stall: StallId): Sending {
    return texts.sendingOf(this.transactions, stall);
  }

  grant(wanted: SegmentGrant): SegmentGrant {
    return texts.grant(this.transactions, wanted);
  }

  route(inbound: Omit<Inbound, "own">, to: string | null): texts.Route {
    return texts.route(this.transactions, inbound, to, bindingsOf(this.env));
  }

  /** Notes that a number opted out of texts, or in again; returns the stalls to inform. */
  setStopped(sender: string, stopped: boolean, as?: string): readonly StallId[] {
    return this.transactions.transact(() => this.transactions.routing.setStopped(sender, stopped, as));
  }

  /** A page of the numbers of one stall that said STOP, to go along when it moves; `own` is the fair's key of their hashes. */
  stops(stall: StallId, own: string, from: string | null): ReturnType<Stops["page"]> {
    return this.transactions.routing.stops.page(stall, own, from);
  }

  /** Imports the numbers that said STOP at a stall's earlier place. */
  takeStops(stall: StallId, list: StopList): void {
    this.transactions.transact(() => this.transactions.routing.stops.takeIn(stall, list));
  }

  /** Those of the senders, by their keyed hashes, that want no texts. */
  stopped(senders: readonly string[]): readonly string[] {
    return this.transactions.routing.stoppedAmong(senders);
  }

  stoppedAmong(phones: readonly PhoneNumber[]): Promise<readonly PhoneNumber[]> {
    return texts.stoppedAmong(this.transactions, phones, this.env.KEY_SECRET);
  }

  /** Notes that every stall has been informed. */
  toldStopped(sender: string, stopped: boolean): void {
    this.transactions.transact(() => this.transactions.routing.toldStopped(sender, stopped));
  }
}
