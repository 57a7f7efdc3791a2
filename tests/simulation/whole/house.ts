/** A whole fair on the real objects: one fair, several stalls, and the connections between them. */

import { Fair, type FairEnv } from "../../../src/fair/fair.ts";
import type { HearsFair, SegmentGrant, StallReport } from "../../../src/fair/reports.ts";
import type { TextPath } from "../../../src/http/routes/gateway/take-in.ts";
import type { CustomerId, StallId } from "../../../src/model/basics/ids.ts";
import type { PhoneNumber } from "../../../src/model/orders/order.ts";
import { Stall, type StallEnv } from "../../../src/stall/stall.ts";
import type { UnitOfWork } from "../../../src/stall/storage/unit-of-work.ts";
import { ids } from "../../ids.ts";
import { Cell, type Faultiness, Lost } from "./host.ts";
import { StallWatch } from "./watch.ts";
import type { World } from "./world.ts";

/** A stall whose memory can be looked at. */
export class OpenStall extends Stall {
  get memory(): UnitOfWork {
    return this.transactions.unit;
  }
}

export const FAIR = ids.fair("brackenfield");
export const STALLS = ["tern", "gannet", "plover"] as const;
const BINDINGS = { GATEWAY_URL: "http://gateway.invalid/out", GATEWAY_NUMBER: "+12125550199" };

export class House {
  readonly world: World;
  readonly faults: Faultiness = { alarmLate: 0, alarmTwice: 0, callTakes: 0 };
  readonly fair: Cell<Fair>;
  readonly stalls = new Map<StallId, Cell<OpenStall>>();
  readonly watches = new Map<StallId, StallWatch>();
  /** The environment of every stall's object. */
  readonly #env: StallEnv;
  /** The share of calls between objects that is lost on the way there or back. */
  lostCalls = 0;

  constructor(world: World) {
    this.world = world;
    // The platform's context and bindings, as far as the shells use them.
    const fairEnv: FairEnv = { STALL: { getByName: (name) => this.#stallAsSeen(name) }, ...BINDINGS };
    this.fair = new Cell("fair", world, this.faults, (ctx) => new Fair(ctx as DurableObjectState, fairEnv));
    this.#env = { FAIR: { getByName: () => this.#fairAsSeen }, ...BINDINGS };
    for (const name of STALLS) {
      const cell = this.place(name);
      this.stalls.set(ids.stall(name), cell);
      this.watches.set(ids.stall(name), new StallWatch(cell));
    }
  }

  /** An empty object for a stall. */
  place(name: string): Cell<OpenStall> {
    const make = (ctx: unknown) => new OpenStall(ctx as DurableObjectState, this.#env);
    return new Cell(name, this.world, this.faults, make);
  }

  stall(name: StallId): Cell<OpenStall> {
    const cell = this.stalls.get(name);
    if (cell === undefined) throw new Error(`there is no stall ${name}`);
    return cell;
  }

  watch(name: StallId): StallWatch {
    const watch = this.watches.get(name);
    if (watch === undefined) throw new Error(`there is no stall ${name}`);
    return watch;
  }

  get cells() {
    return [this.fair, ...this.stalls.values()];
  }

  /** A call between two objects, which takes its time and may get lost on the way there or back. */
  async between<T>(call: () => Promise<T>): Promise<T> {
    const { random } = this.world;
    if (this.faults.callTakes > 0) await this.world.sleep(random.below(this.faults.callTakes));
    if (random.chance(this.lostCalls / 2)) throw new Lost("the call did not arrive");
    const answer = await call();
    if (random.chance(this.lostCalls / 2)) throw new Lost("the answer did not arrive");
    return answer;
  }

  /** A stall as its fair reaches it, by the object's name. */
  #stallAsSeen(name: string): HearsFair {
    const cell = this.stall(ids.stall(name.slice(name.indexOf("/") + 1))); // the fair's own stalls only
    return { open: (...news) => this.between(() => cell.call((stall) => stall.open(...news))) };
  }

  readonly #fairAsSeen = {
    report: (report: StallReport) => this.between(() => this.fair.call((fair) => fair.report(report))),
    sending: (stall: StallId) => this.between(() => this.fair.call((fair) => fair.sending(stall))),
    stoppedAmong: (phones: readonly PhoneNumber[]) =>
      this.between(() =>
        this.fair.call((fair) => {
          const stopped = new Set(fair.stopped(phones.map((phone) => idFor(`sender/${FAIR}/${phone}`))));
          return phones.filter((phone) => stopped.has(idFor(`sender/${FAIR}/${phone}`)));
        }),
      ),
    grant: (wanted: SegmentGrant) => this.between(() => this.fair.call((fair) => fair.grant(wanted))),
  };

  /** The way of an inbound text. */
  readonly path: TextPath = {
    fair: {
      route: (text, to) => this.between(() => this.fair.call((fair) => fair.route(text, to))),
      setStopped: (sender, stopped, as) =>
        this.between(() => this.fair.call((fair) => fair.setStopped(sender, stopped, as))),
      stoppedAmong: (phones) => this.#fairAsSeen.stoppedAmong(phones),
      toldStopped: (sender, stopped) =>
        this.between(() => this.fair.call((fair) => fair.toldStopped(sender, stopped))),
    },
    stall: (name) => {
      const cell = this.stall(name);
      return {
        text: (said, from) => this.between(() => cell.call((stall) => stall.text(said, from))),
        askWhich: (said, from, stalls) =>
          this.between(() => cell.call((stall) => stall.askWhich(said, from, stalls))),
        setStopped: (customer, stopped) =>
          this.between(() => cell.call((stall) => stall.setStopped(customer, stopped))),
      };
    },
    opaqueId: async (of) => idFor(of),
    stopHash: async (phone) => idFor(`stop/${phone}`),
  };

  /** Looks at every stall that was written to. */
  look(): void {
    for (const watch of this.watches.values()) watch.look();
  }
}

/** An id in place of a keyed hash. */
export const idFor = (of: string): CustomerId =>
  ids.customer(of.replaceAll(/[^A-Za-z0-9]/g, "_").padStart(22, "_"));
