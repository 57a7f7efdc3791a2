/** The faults stop, the crews work everything off, time passes: everything must come to rest. */

import type { StallId } from "../../../src/model/basics/ids.ts";
import type { Throughput } from "../../../src/model/fair/throughput.ts";
import { StockEntry } from "../../../src/model/orders/stock.ts";
import { nextDue } from "../../../src/stall/messages/agenda.ts";
import { lastReport } from "../../../src/stall/messages/report-to-fair.ts";
import { MINUTE } from "../../../src/time/instants.ts";
import { ids } from "../../ids.ts";
import type { Counters } from "./counters.ts";
import { type Crews, PRESSES } from "./crew.ts";
import type { Customers } from "./customers.ts";
import { RuleBroken, same } from "./fault.ts";
import type { Gateway } from "./gateway.ts";
import type { House } from "./house.ts";
import { PIECES } from "./menu.ts";
import type { Moves } from "./moves.ts";
import { COUNTED } from "./tally.ts";

const ROUNDS = 80;
export type Everybody = {
  readonly house: House;
  readonly gateway: Gateway;
  readonly crews: Crews;
  readonly customers: Customers;
  readonly counters: Counters;
  readonly moves: Moves;
};

export async function rest({ house, gateway, crews, customers, counters, moves }: Everybody): Promise<void> {
  Object.assign(house.faults, { alarmLate: 0, alarmTwice: 0, callTakes: 0 });
  house.lostCalls = 0;
  house.world.putRight();
  gateway.calm();
  for (const cell of house.cells) {
    cell.rows.refusals = 0;
    if (house.world.random.chance(0.5)) cell.kill();
  }
  // Texts that are still under way, and answers that are still awaited; the crews' screens go on asking.
  // A minute longer than an unclaimed order is kept, so that the texts its end brings go out too.
  for (let minute = 0; minute < 16; minute++) {
    for (const stall of house.stalls.keys())
      await house.stall(stall).call((object) => object.admits(crews.generation(stall)));
    await house.world.pass(MINUTE);
  }
  for (const stall of house.stalls.keys()) {
    const left = house.stall(stall).awake?.memory?.people.out.size ?? 0;
    if (left > 0) throw new RuleBroken("texts go out", `${stall}: ${left} still wait`);
  }
  for (
    let round = 0;
    round < ROUNDS && [...house.stalls.keys()].some((stall) => crews.orders(stall).length > 0);
    round++
  ) {
    for (const stall of house.stalls.keys()) workOff(stall, round, crews);
    await house.world.pass(MINUTE);
  }
  // Sendings that failed are tried again for two hours.
  await house.world.pass(150 * MINUTE);
  const pending = [gateway, crews, customers, counters, moves].map((one) => one.pending);
  if (pending.some((waiting) => waiting > 0))
    throw new RuleBroken("everybody is answered", "some still wait for an answer");
  for (const stall of house.stalls.keys()) await expectRest(house, stall);
  await expectPace(house);
}

/** One round of a crew that has all it needs. */
function workOff(stall: StallId, round: number, crews: Crews): void {
  const generation = crews.generation(stall);
  const id = (what: string): string => `rest ${stall} ${round} ${what}`;
  if (round === 0) {
    crews.write(stall, id("resume"), (object, key) => object.onFloor(generation, key, { type: "resume" }));
    const entries = PIECES.map((piece) => StockEntry.parse({ ...piece, delivered: 60 }));
    crews.write(stall, id("stock"), (object, key) =>
      object.changeStock(generation, key, { type: "change-stock", entries }),
    );
  }
  for (const order of crews.orders(stall)) {
    const { number } = order;
    for (const { n, stage } of order.jobs)
      if (stage === "pressing")
        crews.write(stall, id(`${number}-${n}`), (object, key) =>
          object.onJob(generation, key, { type: "pressed", job: `${number}-${n}` as never }),
        );
    if (order.claimed === false)
      crews.write(stall, id(`claim ${number}`), (object, key) =>
        object.onOrder(generation, key, { type: "claimed", number }),
      );
    if (order.paid === null || order.due !== undefined)
      crews.write(stall, id(`pay ${number}`), (object, key) =>
        object.onOrder(generation, key, { type: "paid", number, tender: "cash" }),
      );
    if (order.readyAt !== null)
      crews.write(stall, id(`collect ${number}`), (object, key) =>
        object.onOrder(generation, key, { type: "closed", number, as: "collected" }),
      );
  }
  for (const name of PRESSES) {
    const press = ids.press(name);
    if (round === 0)
      crews.write(stall, id(`up ${press}`), (object, key) =>
        object.onFloor(generation, key, { type: "press-up", press }),
      );
    crews.write(stall, id(`pull ${press}`), (object, key) =>
      object.pull(generation, key, { type: "pull", press }),
    );
  }
}

async function expectRest(house: House, stall: StallId): Promise<void> {
  const cell = house.stall(stall);
  await cell.call((object) => object.menu());
  house.watch(stall).whole();
  const unit = cell.awake?.memory;
  if (unit === undefined) throw new RuleBroken("everything comes to rest", `${stall} is not awake`);
  const { state, people } = unit;
  const stuck = (what: string, size: number): void => {
    if (size > 0) throw new RuleBroken("everything comes to rest", `${stall}: ${size} ${what} left`);
  };
  stuck("orders", state.orders.size);
  stuck("holds", state.holds.size);
  stuck("texts", people.out.size);
  const due = nextDue(unit, house.world.clock);
  const { alarmAt } = cell;
  if (due !== null && (alarmAt === null || alarmAt > due))
    throw new RuleBroken("everything comes to rest", `${stall}: due at ${due}, the alarm is at ${alarmAt}`);
  same("the fair is told", stall, lastReport(unit).version, state.version);
}

/** The organiser's figures are what the checker counted. */
async function expectPace(house: House): Promise<void> {
  const query = { span: "all", per: "stall" } as const;
  const answer = await house.fair.call((fair) => fair.throughput(1, query, []));
  if (!answer.ok || answer.value.text === null)
    throw new RuleBroken("the fair is told", "the pace cannot be read");
  const { stalls } = JSON.parse(answer.value.text) as Throughput; // as the fair renders it
  for (const pace of stalls) {
    const counted = house.watch(pace.stall).tally.counts;
    for (const field of COUNTED)
      same("the fair is told", `${pace.stall} ${field}`, pace[field], counted[field]);
  }
}
