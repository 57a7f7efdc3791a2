/** The worker with a way to report for stalls that are not there, and a count of the calls on its objects. */

import type { StallReport } from "../../../src/fair/reports.ts";
import { app } from "../../../src/http/app.ts";
import type { Env } from "../../../src/http/requests/env.ts";
import { type StallId, StallId as StallIds } from "../../../src/model/basics/ids.ts";
import { countedCalls } from "../scale/counted-calls.ts";

export { Fair } from "../../../src/fair/fair.ts";
export { Stall } from "../../../src/stall/stall.ts";

type Told = {
  readonly fair: string;
  readonly stalls?: readonly { readonly stall: StallId; readonly name: string }[];
  readonly reports: readonly StallReport[];
};

let calls = 0;
const counted = <T extends object>(namespace: T): T => countedCalls(namespace, () => (calls += 1));

export default {
  async fetch(request: Request, env: Env, context: ExecutionContext): Promise<Response> {
    const { pathname } = new URL(request.url);
    if (pathname === "/bench/calls") {
      const answer = calls;
      calls = 0;
      return Response.json({ calls: answer });
    }
    if (pathname === "/bench/reports") {
      const { fair, stalls = [], reports } = (await request.json()) as Told; // the bench's own
      const object = env.FAIR.getByName(fair);
      for (const { stall, name } of stalls) await object.addStall(1, StallIds.parse(stall), name);
      for (const report of reports) await object.report(report);
      return Response.json({ reports: reports.length }, { status: 201 });
    }
    return app.fetch(request, { ...env, FAIR: counted(env.FAIR), STALL: counted(env.STALL) }, context);
  },
};
