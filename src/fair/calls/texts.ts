/** The fair's side of the texts: its gateway, its budget, and which stall a text is for. */

import type { StallId } from "../../model/basics/ids.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import type { FairAnswer } from "../../model/fair/fair-refusal.ts";
import type { GatewayMapping } from "../../model/fair/gateway.ts";
import type { PhoneNumber } from "../../model/orders/order.ts";
import type { Bindings } from "../../texting/bindings.ts";
import { opaqueIdOf, senderAt } from "../../texting/keyed-hash.ts";
import { hostOf } from "../../texting/mapping/hosts.ts";
import { changedByAdding, ownerOf, type Sending, sendingFor } from "../../texting/sending/sending.ts";
import { stopHash, stopKeyOf } from "../../texting/stop-hash.ts";
import { dayOf } from "../../time/fair-day.ts";
import type { GatewayRow } from "../gateway-rows.ts";
import type { SegmentGrant } from "../reports.ts";
import type { Destination, Inbound } from "../text-routing.ts";
import type { FairTransactions } from "../transact.ts";
import { eraseLater } from "./erasing.ts";
import { shortestWaits } from "./seen.ts";

/** A text of the organiser to itself: its id, and the mapping that sends it. */
export type Try = { readonly id: string; readonly fairName: string; readonly mapping: GatewayMapping };

/** Where a text goes, with what the whole fair knows of its sender. */
export type Route = {
  readonly destination: Destination;
  readonly stopped: boolean;
  /** Whether some stalls may not know it yet. */
  readonly telling: boolean;
  /** The gateway's version as the stall should have it. */
  readonly gateway: number;
  /** Set if stalls brought along who said STOP elsewhere: whether this number did is known by asking with it. */
  readonly elsewhere?: true;
};

/** Grows whenever the mapping or the number of stalls does, and so whether a number is shared. */
export const gatewayVersion = (transactions: FairTransactions): number =>
  transactions.gatewayRows.gateway.version + transactions.stalls().length;

/** What one stall needs to send texts on its own. */
export function sendingOf(transactions: FairTransactions, stall: StallId): Sending {
  const stalls = transactions.stalls().map((row) => row.stall);
  return sendingFor(transactions.gatewayRows.gateway.mapping, stall, stalls, gatewayVersion(transactions));
}

/** The stalls whose texts change as one is added. */
export function changedBy(transactions: FairTransactions, added: StallId): readonly StallId[] {
  const stalls = transactions.stalls().map(({ stall }) => stall);
  return changedByAdding(transactions.gatewayRows.gateway.mapping.numbers, added, stalls);
}

/** A text's signature did not fit the mapping of that version: counted, or the newer mapping to try. */
export function badSignature(transactions: FairTransactions, version: number): GatewayRow | null {
  if (transactions.fair() === undefined) return null;
  const { gatewayRows } = transactions;
  if (gatewayRows.gateway.version !== version) return gatewayRows.gateway;
  gatewayRows.countBadSignature();
  return null;
}

/**
 * Sets the gateway's mapping, already checked; every stall gets it. If the owner pins no hosts, the first saved `host`
 * stays, so that a stolen key cannot send the deployment's secrets elsewhere.
 */
export function setGateway(
  transactions: FairTransactions,
  generation: number,
  mapping: GatewayMapping,
  host: string | null,
  bindings: Bindings,
): FairAnswer<GatewayRow> {
  if (transactions.fair() === undefined) return refused({ code: "no-such-fair" });
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  const { kv, gatewayRows } = transactions;
  // If the mapping was saved before this row existed, its host is the first host.
  const saved =
    gatewayRows.gateway.version > 1 ? hostOf(gatewayRows.gateway.mapping.outbound, bindings) : null;
  const firstHost = kv.get<string>("gateway-host") ?? saved;
  if (host !== null && firstHost !== null && firstHost !== host)
    return refused({ code: "other-host", firstHost });
  return transactions.transact((now) => {
    const stalls = transactions.stalls().map(({ stall }) => stall);
    transactions.outbox.add(stalls, now);
    if (host !== null) kv.put("gateway-host", host);
    return ok(gatewayRows.setMapping(mapping));
  });
}

type Tries = { readonly day: string; readonly count: number; readonly last: string };

/** The organiser's own tries of the gateway in a day. */
const MOST_TRIES = 5;
/** A typed number may be somebody else's: a try goes only to a number that wrote this recently. */
const WROTE_WITHIN = 24 * 60 * 60 * 1000;

/**
 * Counts one text that the organiser sends itself, before it goes out. Repeated with the same key it is the same one.
 * Refused for a number that has not texted this fair within a day, said STOP, or is in a country without texts.
 */
export async function tryGateway(
  transactions: FairTransactions,
  generation: number,
  key: WriteKey,
  { to, sender }: { readonly to: PhoneNumber; readonly sender: string },
  secret: string | undefined,
): Promise<FairAnswer<Try>> {
  const fair = transactions.fair();
  if (fair === undefined) return refused({ code: "no-such-fair" });
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  const { mapping } = transactions.gatewayRows.gateway;
  const isAllowed = mapping.prefixes.some((prefix) => to.startsWith(prefix));
  const hasStopped = (await stoppedAmong(transactions, [to], secret)).length > 0;
  if (!isAllowed || hasStopped) return refused({ code: "not-texted" });
  return transactions.transact((now): FairAnswer<Try> => {
    const { wroteAt } = transactions.routing.sender(sender);
    if (wroteAt === undefined || Math.abs(now - wroteAt) > WROTE_WITHIN)
      return refused({ code: "text-first" });
    const day = dayOf(now, fair.timeZone);
    const before = transactions.kv.get<Tries>("gateway-tries");
    const count = before?.day === day ? before.count : 0;
    const isRepeat = before?.last === key.scope;
    if (!isRepeat && count >= MOST_TRIES) return refused({ code: "no-more-tries", most: MOST_TRIES });
    if (!isRepeat)
      transactions.kv.put("gateway-tries", { day, count: count + 1, last: key.scope } satisfies Tries);
    const id = `${fair.fair}.try.${day}-${isRepeat ? count : count + 1}`;
    return ok({ id, fairName: fair.name, mapping });
  });
}

/** Grants a stall segments of the day's cap. */
export function grant(transactions: FairTransactions, wanted: SegmentGrant): SegmentGrant {
  const timeZone = transactions.fair()?.timeZone ?? "UTC";
  return transactions.transact((now) => transactions.gatewayRows.grant(wanted, dayOf(now, timeZone)));
}

/** Routes a text; `to` is the number it was sent to, if the gateway says. */
export function route(
  transactions: FairTransactions,
  inbound: Omit<Inbound, "own">,
  to: string | null,
  bindings: Bindings,
): Route {
  const fair = transactions.fair();
  const stalls = fair === undefined ? [] : transactions.stalls();
  const { numbers } = transactions.gatewayRows.gateway.mapping;
  const owner = to === null ? null : ownerOf(numbers, to, bindings);
  const own = stalls.some(({ stall }) => stall === owner) ? owner : null;
  const { routing } = transactions;
  const destination: Destination =
    fair === undefined || stalls.length === 0
      ? { to: "nobody" }
      : transactions.transact((now) => {
          eraseLater(transactions, fair, now);
          return routing.route({ ...inbound, own }, stalls, now, (listed) =>
            shortestWaits(transactions, listed, now),
          );
        });
  const { stopped, telling = false } = routing.sender(inbound.sender);
  const elsewhere = routing.stops.keysElsewhere().length > 0 ? ({ elsewhere: true } as const) : {};
  return { destination, stopped, telling, gateway: gatewayVersion(transactions), ...elsewhere };
}

/**
 * The numbers among these that have opted out; asked at the moment of sending. The numbers are not kept. A number that
 * said STOP at a stall's earlier place is stored from now on by this fair's own hash.
 */
export async function stoppedAmong(
  transactions: FairTransactions,
  phones: readonly PhoneNumber[],
  secret: string | undefined,
): Promise<readonly PhoneNumber[]> {
  const fair = transactions.fair()?.fair;
  if (fair === undefined || secret === undefined) throw new Error("the fair cannot tell who said STOP");
  const hashes = await Promise.all(phones.map((phone) => opaqueIdOf(secret, senderAt(fair, phone))));
  const { routing } = transactions;
  for (const key of routing.stops.keysElsewhere())
    for (const [index, phone] of phones.entries()) {
      const [there, as] = await Promise.all([stopHash(key, phone), ownStopHash(secret, fair, phone)]);
      transactions.transact(() => {
        const stall = routing.stops.takeOut(key, there);
        if (stall !== undefined) routing.stops.add(hashes[index] ?? "", { as, stalls: [stall] });
      });
    }
  const stopped = new Set(routing.stoppedAmong(hashes));
  return phones.filter((_, index) => stopped.has(hashes[index] ?? ""));
}

const ownStopHash = async (secret: string, fair: string, phone: PhoneNumber): Promise<string> =>
  stopHash(await opaqueIdOf(secret, stopKeyOf(fair)), phone);
