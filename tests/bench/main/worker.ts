/**
 * The worker, with the objects it is compared to: one that writes given rows in one transaction, and one that does
 * nothing. Also the stall itself, with its writes counted.
 */
import { DurableObject } from "cloudflare:workers";
import { app } from "../../../src/http/app.ts";
import { Stall as RealStall } from "../../../src/stall/stall.ts";
import { type Counts, counting } from "./counting.ts";

export { Fair } from "../../../src/fair/fair.ts";

export class Bare extends DurableObject {
  nothing(): null {
    return null;
  }

  /** Writes rows under fresh keys in one transaction; gives back how many there were. */
  write(rows: readonly (readonly [string, unknown])[], n: string): number {
    this.ctx.storage.transactionSync(() => {
      for (const [key, value] of rows) this.ctx.storage.kv.put(`${key}:${n}`, value);
    });
    return rows.length;
  }
}

export class Stall extends RealStall {
  readonly #counts: Counts;

  constructor(ctx: Ctx, env: ConstructorParameters<typeof RealStall>[1]) {
    const counts: Counts = { puts: 0, rows: [] };
    super(counting(ctx, counts), env);
    this.#counts = counts;
  }

  /** Rows written since the last call, and the rows themselves. */
  written(): { readonly puts: number; readonly rows: readonly (readonly [string, unknown])[] } {
    const answer = { ...this.#counts };
    Object.assign(this.#counts, { puts: 0, rows: [] });
    return answer;
  }
}

type BenchEnv = {
  readonly BARE: DurableObjectNamespace<Bare>;
  readonly STALL: DurableObjectNamespace<Stall>;
};

let rows: readonly (readonly [string, unknown])[] = [];

// Fixed 304: through the same front door as the queue, up to an object that does nothing.
app.get("/v1/bench/fixed", async (c) => {
  await (c.env as unknown as BenchEnv).BARE.getByName("still").nothing(); // bound by the bench
  return c.body(null, 304, { ETag: '"v1"', "Cache-Control": "no-cache" });
});

export default {
  async fetch(request: Request, env: BenchEnv, context: ExecutionContext): Promise<Response> {
    const { pathname } = new URL(request.url);
    if (pathname === "/bare/rows") {
      rows = await request.json();
      return new Response(null, { status: 204 });
    }
    if (pathname === "/bare/write") {
      await request.text();
      const written = await env.BARE.getByName("rows").write(
        rows,
        request.headers.get("Idempotency-Key") ?? "",
      );
      return Response.json({ written }, { status: 201 });
    }
    if (pathname.startsWith("/bare/written/")) {
      return Response.json(await env.STALL.getByName(pathname.slice("/bare/written/".length)).written());
    }
    return app.fetch(request, env as never, context);
  },
};
