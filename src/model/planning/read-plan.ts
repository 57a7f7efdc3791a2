import type { OrFaults } from "../basics/faults.ts";
import { mendable } from "../basics/request-faults.ts";
import { ok, refused } from "../basics/result.ts";
import { PlanRequest } from "./plan-request.ts";

export type ReadPlan = OrFaults<PlanRequest>;

/** Reads a plan request from anything: the request with its defaults filled in, or every fault of its shape. */
export function readPlanRequest(sent: unknown): ReadPlan {
  const parsed = PlanRequest.safeParse(sent);
  if (parsed.success) return ok(parsed.data);
  return refused(mendable(parsed.error));
}
