/** The worker with two doors more: many stalls for a fair at once, and a stall's long past. */

import { Fair as RealFair } from "../../../src/fair/fair.ts";
import { app } from "../../../src/http/app.ts";
import { Stall as RealStall } from "../../../src/stall/stall.ts";
import { ids } from "../../ids.ts";

/** Rows written in one transaction. */
const AT_ONCE = 5000;

export class Fair extends RealFair {
  more(stalls: number): void {
    for (let n = this.transactions.stalls().length; n < stalls; n++)
      this.addStall(1, ids.stall(`stall-${n}`), `Stall ${n}`);
  }
}

export class Stall extends RealStall {
  /** Writes many past orders: copies of one that is waiting, under unused numbers. */
  age(orders: number): number {
    const [like] = [...this.transactions.unit.state.orders.values()];
    if (like === undefined) throw new Error("there is no order to copy");
    const { storage } = this.ctx;
    for (let first = 0; first < orders; first += AT_ONCE) {
      storage.transactionSync(() => {
        for (let n = first; n < Math.min(orders, first + AT_ONCE); n++) {
          const number = 100_000 + n;
          storage.kv.put(`past:${number}`, {
            ...like,
            number,
            closed: { as: "collected", at: like.placedAt },
          });
        }
      });
    }
    return storage.sql.databaseSize;
  }
}

type BenchEnv = {
  readonly FAIR: DurableObjectNamespace<Fair>;
  readonly STALL: DurableObjectNamespace<Stall>;
};

export default {
  async fetch(request: Request, env: BenchEnv, context: ExecutionContext): Promise<Response> {
    const { pathname } = new URL(request.url);
    if (pathname === "/bench/more-stalls") {
      const { fair, stalls } = (await request.json()) as { fair: string; stalls: number }; // the bench's own
      await env.FAIR.getByName(fair).more(stalls);
      return Response.json({}, { status: 201 });
    }
    if (pathname === "/bench/past") {
      const { stall, orders } = (await request.json()) as { stall: string; orders: number }; // the bench's own
      return Response.json({ bytes: await env.STALL.getByName(stall).age(orders) }, { status: 201 });
    }
    return app.fetch(request, env as never, context);
  },
};
