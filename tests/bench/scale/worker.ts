/** The worker with all that is billed counted: requests, calls of objects, alarms, and rows written. */

import { Fair as RealFair } from "../../../src/fair/fair.ts";
import { app } from "../../../src/http/app.ts";
import type { Env } from "../../../src/http/requests/env.ts";
import { Stall as RealStall } from "../../../src/stall/stall.ts";
import { counting } from "../main/counting.ts";
import { countedCalls } from "./counted-calls.ts";

const rows = { puts: 0, rows: [] as (readonly [string, unknown])[] };
const calls = { stall: 0, fair: 0, alarms: 0, requests: 0 };

const countedEnv = <E extends Pick<Env, "STALL" | "FAIR">>(env: E): E => ({
  ...env,
  STALL: countedCalls(env.STALL, () => (calls.stall += 1)),
  FAIR: countedCalls(env.FAIR, () => (calls.fair += 1)),
});

type Given<C extends abstract new (...given: never[]) => unknown> = ConstructorParameters<C>;

export class Stall extends RealStall {
  constructor(ctx: Given<typeof RealStall>[0], env: Given<typeof RealStall>[1]) {
    super(counting(ctx, rows), countedEnv(env as never)); // the worker's own bindings
  }

  override alarm(): Promise<void> {
    calls.alarms += 1;
    return super.alarm();
  }
}

export class Fair extends RealFair {
  constructor(ctx: Given<typeof RealFair>[0], env: Given<typeof RealFair>[1]) {
    super(counting(ctx, rows), countedEnv(env as never)); // as above
  }

  override alarm(): Promise<void> {
    calls.alarms += 1;
    return super.alarm();
  }
}

export default {
  fetch(request: Request, env: Env, context: ExecutionContext): Response | Promise<Response> {
    if (new URL(request.url).pathname === "/bench/counts") {
      const answer = { ...calls, rows: rows.puts };
      Object.assign(calls, { stall: 0, fair: 0, alarms: 0, requests: 0 });
      Object.assign(rows, { puts: 0, rows: [] });
      return Response.json(answer);
    }
    calls.requests += 1;
    return app.fetch(request, countedEnv(env), context);
  },
};
