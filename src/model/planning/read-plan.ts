import type { z } from "zod";
import { type MendableFault, type OrFaults, pointer } from "../basics/faults.ts";
import { ok, refused } from "../basics/result.ts";
import { PlanRequest } from "./plan-request.ts";

export type ReadPlan = OrFaults<PlanRequest>;

/** Reads a plan request from anything: the request with its defaults filled in, or every fault of its shape. */
export function readPlanRequest(sent: unknown): ReadPlan {
  const parsed = PlanRequest.safeParse(sent);
  if (parsed.success) return ok(parsed.data);
  return refused(mendable(parsed.error));
}

/** Every fault of a request's shape, with what would mend it. */
export const mendable = (error: z.ZodError): readonly MendableFault[] => error.issues.flatMap(faultsOfIssue);

function faultsOfIssue(issue: z.core.$ZodIssue): MendableFault[] {
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) => ({
      pointer: pointer([...issue.path, key]),
      detail: "is not a field here",
      mend: "check its spelling or take it out",
    }));
  }
  return [{ pointer: pointer(issue.path), detail: issue.message, mend: mendOf(issue) }];
}

/** What would mend it, from what the schema asked for. */
function mendOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "too_small":
      return `give ${issue.inclusive === false ? "more than" : "at least"} ${issue.minimum}`;
    case "too_big":
      return `give ${issue.inclusive === false ? "less than" : "at most"} ${issue.maximum}`;
    case "invalid_type":
      return `give ${issue.expected === "int" ? "a whole number" : `a value of type ${issue.expected}`}`;
    case "invalid_value":
      return `give one of ${issue.values.map(String).join(", ")}`;
    default:
      return "write it as the schema says";
  }
}
