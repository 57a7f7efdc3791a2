/** Garments that are named in the body of a request about their order. */
import type { Context } from "hono";
import { type JobId, jobParts } from "../../../../model/basics/ids.ts";
import { ok, refused } from "../../../../model/basics/result.ts";
import { crewRead, type Path } from "../../../doors/crew.ts";
import type { Guarded } from "../../../doors/guard.ts";
import type { App } from "../../../requests/env.ts";
import { invalid } from "../../../requests/problems.ts";

/**
 * The numbers of some garments in their order. A garment of another order is refused at `pointer`, but not before the
 * stall has accepted the key: a key that has ended gets no other answer than that.
 */
export async function numbersIn(
  c: Context<App>,
  path: Path,
  {
    number,
    jobs,
    pointer,
  }: {
    readonly number: number;
    readonly jobs: readonly JobId[];
    readonly pointer: string;
  },
): Promise<Guarded<readonly number[]>> {
  const other = jobs.find((job) => jobParts(job).number !== number);
  if (other === undefined) return ok(jobs.map((job) => jobParts(job).n));
  const accepted = await crewRead(c, path, (stall, generation) => stall.rack(generation));
  if (!accepted.ok) return accepted;
  return refused(invalid(c, [{ pointer, detail: `${other} is no garment of order ${number}` }]));
}
