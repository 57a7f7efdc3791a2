import type { Plan } from "../../src/model/planning/plan-answer.ts";
import type { PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { planFair } from "../../src/planning/plan.ts";
import { prepare } from "../../src/planning/request/prepare.ts";
import type { Prepared } from "../../src/planning/request/prepared.ts";
import { request } from "./invented.ts";

/** The plan of a request; throws, with the faults, if there is none. */
export function planned(sent: PlanRequestSent): Plan {
  const outcome = planFair(request(sent));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

export function preparedFrom(sent: PlanRequestSent): Prepared {
  const preparation = prepare(request(sent));
  if (!preparation.ok) throw new Error(JSON.stringify(preparation.refusal));
  return preparation.value;
}
