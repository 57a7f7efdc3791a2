/** One seed's fair: a plan with faults, then calm weather in which everything must come to rest. */

import { seededRandom } from "../../../src/maths/random.ts";
import { GatewayMapping } from "../../../src/model/fair/gateway.ts";
import { PLAIN } from "../../../src/texting/mapping/mappings.ts";
import { ids } from "../../ids.ts";
import { Counters } from "./counters.ts";
import { Crews } from "./crew.ts";
import { Customers } from "./customers.ts";
import { RuleBroken } from "./fault.ts";
import { Gateway } from "./gateway.ts";
import { guarded } from "./guard.ts";
import { FAIR, House, STALLS } from "./house.ts";
import { mark } from "./marks.ts";
import { menuFor, openingStock } from "./menu.ts";
import { Moves } from "./moves.ts";
import { type Act, planOf } from "./plan.ts";
import { type Everybody, rest } from "./rest.ts";
import { settled, World } from "./world.ts";

export const ACTS = 160;
const OPENS = Date.parse("2027-06-12T14:00:00Z");
const CLOSES = Date.parse("2027-06-13T00:00:00Z");
/** All rows are compared after this many acts; written ones are compared after every step. */
const WHOLE_EVERY = 40;
const UNSIGNED = GatewayMapping.parse({ ...PLAIN, outbound: { ...PLAIN.outbound, signature: null } });

export type Run = {
  readonly trace: string;
  readonly fault: { readonly rule: string; readonly message: string; readonly act: number } | null;
};

/** Where a test wants to do something to the fair before it begins. */
export type Prepare = (house: House) => void;

/** Plays a seed's plan, or some of its acts. */
export async function run(
  seed: number,
  keep: (act: Act) => boolean = () => true,
  prepare: Prepare = () => {},
): Promise<Run> {
  const random = seededRandom(seed);
  // Some fairs are played near closing time, and some begin before it opens.
  const starts = random.pick([
    OPENS + 60_000,
    OPENS + 60_000,
    OPENS + 60_000,
    OPENS - 300_000,
    CLOSES - 2_400_000,
  ]);
  const world = new World(seed + 0x5eed, starts);
  const house = new House(world);
  prepare(house);
  let fault: unknown = null;
  const fail = (error: unknown): void => {
    fault ??= error;
  };
  const gateway = new Gateway(house, fail);
  const crews = new Crews(house, fail);
  const customers = new Customers(house, gateway, crews, 300, fail);
  const counters = new Counters(house, crews, fail);
  const moves = new Moves(house, crews, fail);
  const everybody: Everybody = { house, gateway, crews, customers, counters, moves };
  world.after = () => {
    if (fault !== null) throw fault;
    house.look();
  };
  let at = -1;
  // The platform's whole fetch is wider than what sending uses.
  const fetch = gateway.fetch as unknown as typeof globalThis.fetch;
  return guarded(world, fetch, async () => {
    try {
      await begin(house, crews, random);
      Object.assign(house.faults, {
        alarmLate: random.pick([0, 2000, 90_000]),
        alarmTwice: random.pick([0, 0.1, 0.5]),
        callTakes: random.pick([0, 300]),
      });
      house.lostCalls = random.pick([0, 0.02, 0.1]);
      Object.assign(gateway.weather, {
        lost: random.pick([0, 0.05]),
        doubled: random.pick([0, 0.1, 0.4]),
        way: random.pick([200, 30_000]),
        failing: random.pick([0, 0.1, 0.5]),
        unanswered: random.pick([0, 0.05]),
      });
      for (const act of planOf(seed, ACTS)) {
        // Time passes for an act that is left out as well.
        await world.pass(act.gap);
        if (!keep(act)) continue;
        at = act.index;
        perform(act, everybody);
        await settled();
        world.after();
        if (at % WHOLE_EVERY === 0) for (const watch of house.watches.values()) watch.whole();
      }
      at = ACTS;
      await rest(everybody);
      if (fault !== null) throw fault;
      return { trace: world.trace, fault: null };
    } catch (error) {
      const rule = error instanceof RuleBroken ? error.rule : "an exception";
      const message = error instanceof RuleBroken ? error.message : String((error as Error).stack ?? error);
      return { trace: world.trace, fault: { rule, message, act: at } };
    }
  });
}

async function begin(house: House, crews: Crews, random: ReturnType<typeof seededRandom>): Promise<void> {
  const openings = [{ opens: new Date(OPENS).toISOString(), closes: new Date(CLOSES).toISOString() }];
  const request = { fair: FAIR, name: "Brackenfield", timeZone: "America/New_York", openings };
  await house.fair.call((fair) => fair.create({ scope: "owner", fingerprint: "" }, request));
  await house.fair.call((fair) => fair.setGateway(1, UNSIGNED));
  for (const name of STALLS) {
    const stall = ids.stall(name);
    const early = await house.stall(stall).call((object) => object.menu());
    mark(early);
    if (early.ok) throw new RuleBroken("refusals", "a stall that does not exist has a menu");
    const keys = await house.fair.call((fair) => fair.addStall(1, stall, name));
    if (!keys.ok) throw new Error("the fair did not take the stall");
    await house.fair.call((fair) => fair.tellStalls());
    const menu = menuFor(random);
    crews.menus.set(stall, menu);
    const entries = openingStock(random);
    crews.write(stall, `early ${stall}`, (object, key) =>
      object.changeStock(1, key, { type: "change-stock", entries }),
    );
    crews.write(stall, `menu ${stall}`, (object, key) => object.setMenu(1, key, { type: "set-menu", menu }));
    crews.write(stall, `stock ${stall}`, (object, key) =>
      object.changeStock(1, key, { type: "change-stock", entries }),
    );
    await settled();
    house.look();
  }
}

function perform(act: Act, { house, gateway, crews, customers, counters, moves }: Everybody): void {
  const random = seededRandom(act.seed);
  const { world } = house;
  world.note(`act ${act.index} ${act.kind}`);
  const cell = () => random.pick(house.cells);
  switch (act.kind) {
    case "text":
      return customers.text(act.index, random);
    case "web-order":
    case "walk-up":
    case "paper":
      return customers.order(act.kind, act.index, random);
    case "web-talk":
      return customers.talk(act.index, random);
    case "counter":
      return counters.act(act.index, random);
    case "again":
      return crews.again(random);
    case "evict":
      for (const one of house.cells) if (random.chance(0.5)) one.evict();
      return;
    case "kill":
      return cell().kill();
    case "kill-after-commit":
      return cell().killAfterCommit();
    case "refuse-write":
      return cell().refuseWrite();
    case "jump":
      world.jump(random.pick([-3_600_000, -5000, 5000, 120_000, 1_800_000]));
      // Some platforms look at their alarms again, others ring when they would have rung.
      for (const one of house.cells) if (random.chance(0.5)) one.lookAtAlarm();
      return;
    case "carry":
    case "rehearse":
    case "save":
      return moves.act(act.kind, act.index, random);
    case "outage":
      gateway.downUntil = world.clock + random.below(120_000);
      return;
    default:
      return crews.act(act.kind, act.index, random);
  }
}
