/** What every crew route does alike: check the key, read the write's own key, ask the stall. */

import type { Context } from "hono";
import type { FairId, StallId } from "../../model/basics/ids.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import type { Answer } from "../../model/orders/refusal.ts";
import type { Stall } from "../../stall/stall.ts";
import type { App } from "../requests/env.ts";
import { stallOf } from "../requests/objects.ts";
import { refusal } from "../requests/problems.ts";
import { onlyFor } from "./doors.ts";
import { crew, type Guarded, writeKey } from "./guard.ts";

export const stallBase = "/v1/fairs/{fair}/stalls/{stall}";
export const crewRoute = { tags: ["crew"], ...onlyFor("crew") };

type Path = { readonly fair: FairId; readonly stall: StallId };
type Stub = DurableObjectStub<Stall>;

/** The value of an answer, or its refusal as the response that ends the request. */
export function settled<T>(c: Context<App>, answer: Answer<T>): Guarded<T> {
  return answer.done
    ? { pass: true, value: answer.value }
    : { pass: false, response: refusal(c, answer.refusal) };
}

/** Reads from the stall with the crew's key. */
export async function crewRead<T>(
  c: Context<App>,
  path: Path,
  work: (stall: Stub, generation: number) => Promise<Answer<T>>,
): Promise<Guarded<T>> {
  const guard = await crew(c, path.fair, path.stall);
  return guard.pass ? settled(c, await work(stallOf(c, path), guard.value)) : guard;
}

/** Writes to the stall with the crew's key, once however often it is sent. */
export async function crewWrite<T>(
  c: Context<App>,
  path: Path,
  work: (stall: Stub, generation: number, key: WriteKey) => Promise<Answer<T>>,
): Promise<Guarded<T>> {
  const guard = await crew(c, path.fair, path.stall);
  if (!guard.pass) return guard;
  const key = await writeKey(c, "crew");
  return key.pass ? settled(c, await work(stallOf(c, path), guard.value, key.value)) : key;
}
