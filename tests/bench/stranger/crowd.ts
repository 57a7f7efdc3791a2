/**
 * Honest customers who all order from one address, on a clock of their own: each walks up, waits, and takes the pressed
 * garment.
 */
import { seededRandom } from "../../../src/maths/random.ts";
import { type CustomerId, JobId } from "../../../src/model/basics/ids.ts";
import type { Press } from "../../../src/model/menu/catalogue.ts";
import type { WantedLine } from "../../../src/model/orders/order.ts";
import { noteAddress, unclaimedAt } from "../../../src/stall/messages/unclaimed.ts";
import type { Command, Decision } from "../../../src/stall/rules/commands.ts";
import { garmentsOf, isUnclaimed, stageOf } from "../../../src/stall/state/orders.ts";
import { write } from "../../../src/stall/storage/records.ts";
import { UnitOfWork } from "../../../src/stall/storage/unit-of-work.ts";
import type { Instant } from "../../../src/time/instants.ts";
import { customer, OPENS, testStall } from "../../stall/test-stall.ts";
import { anyGarment, defaultMenu, piecesCounted } from "./stall.ts";

const SECOND = 1000;
const MINUTE = 60 * SECOND;
/** By then everybody came and went; presses that find nothing to do are done. */
const LAST_LOOK = OPENS + 120 * MINUTE;
const ADDRESS = "one address for all";

export type Crowd = {
  readonly customers: number;
  /** Ordered on the web and was in line at once. */
  readonly atOnce: number;
  /** Ordered on the web and was in line only after walking up. */
  readonly toClaim: number;
  /** Could not order on the web and ordered at the counter. */
  readonly toCounter: number;
  /** Did not get everything they wanted. */
  readonly lost: number;
};

type Entry = { readonly at: Instant; readonly act: (now: Instant) => void };

type Visit = {
  readonly who: CustomerId;
  readonly lines: readonly WantedLine[];
  readonly walks: number;
  how: "at-once" | "to-claim" | "to-counter" | null;
  number: number | null;
  got: boolean;
};

/** Some customers who come over an hour; the presses work until nothing is left to press. */
export function crowdBehindOneAddress(customers: number): Crowd {
  const menu = defaultMenu();
  const random = seededRandom(20270613);
  const { store } = testStall(menu, piecesCounted(menu));
  const unit = new UnitOfWork(store);
  const agenda: Entry[] = [];
  const later = (at: Instant, act: Entry["act"]): void => void agenda.push({ at, act });
  const carryOut = (command: Command, now: Instant): Decision => {
    const outcome = unit.carryOut(command, now);
    write(store, unit.drain());
    return outcome;
  };
  const visits = new Map<number, Visit>();

  /** Says yes, as the page does a while after the stall set the garments aside. */
  const order = (visit: Visit, takenBy: "web" | "counter", now: Instant): boolean => {
    const { who, lines } = visit;
    const address = takenBy === "web" ? { unclaimedAtAddress: unclaimedAt(unit, ADDRESS).garments } : {};
    const { events } = carryOut(
      { type: "place", customer: who, takenBy, lines, asks: [], chance: random.next(), ...address },
      now,
    );
    const placed = events.find((event) => event.type === "placed")?.order;
    if (placed === undefined) return false;
    visit.number = placed.number;
    visits.set(placed.number, visit);
    if (takenBy === "counter") visit.how = "to-counter";
    else {
      noteAddress(unit, placed.number, ADDRESS);
      visit.how = stageOf(placed) === "to-claim" ? "to-claim" : "at-once";
    }
    return true;
  };

  /** Hands ready orders over to customers at the counter. */
  const handOver = (number: number, now: Instant): void => {
    const found = unit.state.order(number);
    const visit = visits.get(number);
    if (found === undefined || visit === undefined || isUnclaimed(found) || stageOf(found) !== "ready")
      return;
    const { refusal } = carryOut({ type: "closed", number, as: "collected" }, now);
    visit.got = refusal === null && found.jobs.length === garmentsOf(visit.lines);
  };

  const walkUp = (visit: Visit, now: Instant): void => {
    if (visit.number === null) {
      order(visit, "counter", now);
      return;
    }
    carryOut({ type: "claimed", number: visit.number }, now);
    handOver(visit.number, now);
  };

  /** The stall sets the garments aside, the customer says yes some seconds later; who is refused goes to the counter. */
  const arrive = (visit: Visit, now: Instant): void => {
    const { who, lines, walks } = visit;
    const held = carryOut({ type: "hold", customer: who, takenBy: "web", lines, asks: [0] }, now);
    const says = now + (10 + random.below(50)) * SECOND;
    if (held.refusal === null) later(says, (then) => void order(visit, "web", then));
    later(says + walks, (then) => walkUp(visit, then));
  };

  /** A press takes one garment after the other, until it has nothing to do after the last customer. */
  const work = (press: Press, now: Instant): void => {
    const { events } = carryOut({ type: "pull", press: press.id }, now);
    const pulled = events.find((event) => event.type === "pulled");
    if (pulled === undefined) {
      if (now < LAST_LOOK) later(now + 10 * SECOND, (then) => work(press, then));
      return;
    }
    const { number, n } = pulled;
    later(now + press.garmentSeconds * SECOND, (then) => {
      carryOut({ type: "pressed", job: JobId.parse(`${number}-${n}`) }, then);
      handOver(number, then);
      work(press, then);
    });
  };

  const all = Array.from({ length: customers }, (_, n): Visit => {
    const lines = [anyGarment(menu, random, random.chance(0.3) ? 2 : 1)];
    const walks = (2 + random.next() * 8) * MINUTE;
    return { who: customer(`honest ${n}`), lines, walks, how: null, number: null, got: false };
  });
  for (const visit of all) later(OPENS + random.next() * 60 * MINUTE, (now) => arrive(visit, now));
  for (const press of menu.presses) later(OPENS, (now) => work(press, now));
  for (let next = takeFirst(agenda); next !== undefined; next = takeFirst(agenda)) next.act(next.at);

  const went = (how: Visit["how"]): number => all.filter((visit) => visit.how === how).length;
  return {
    customers,
    atOnce: went("at-once"),
    toClaim: went("to-claim"),
    toCounter: went("to-counter"),
    lost: all.filter(({ got }) => !got).length,
  };
}

/** Takes the earliest entry out of the agenda. */
function takeFirst(agenda: Entry[]): Entry | undefined {
  let first = 0;
  for (const [index, { at }] of agenda.entries()) if (at < (agenda[first]?.at ?? 0)) first = index;
  return agenda.splice(first, 1)[0];
}
