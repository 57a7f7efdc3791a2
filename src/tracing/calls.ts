/**
 * Calls from the front door to its objects carry the request's id, so that what an object logs can be found from
 * the answer the caller has. On the caller's side an object looks as it always does; each call goes through `under`.
 */
import { faultFacts, log } from "./log.ts";

/** An object that can be called under a request's id. */
type Traced = {
  readonly under: (request: string, method: string, values: readonly unknown[]) => Promise<unknown>;
};

/** Members that every stub has beside the object's own methods, and the one that awaiting looks for. */
const OWN_TO_STUBS: ReadonlySet<string> = new Set(["fetch", "connect", "id", "name", "dup", "then"]);

/** The same object, whose calls carry the id of a request. */
export function carrying<S extends object>(stub: S, request: string): S {
  return new Proxy(stub, {
    get: (target, method) => {
      if (typeof method !== "string" || OWN_TO_STUBS.has(method)) return Reflect.get(target, method);
      // Every object of this worker is Traced; the stub's own types are those of the method that is called. The call is
      // made on the stub itself: what hangs off its methods is looked for at the object's side.
      const object = target as unknown as Traced;
      return (...values: unknown[]) => object.under(request, method, values);
    },
  });
}

/** Carries out a call at the object's side; an exception is logged with the request it belongs to. */
export async function carryOut(
  object: object,
  request: string,
  method: string,
  values: readonly unknown[],
): Promise<unknown> {
  const work: unknown = Reflect.get(object, method);
  if (typeof work !== "function") throw new Error(`an object has no method ${method}`);
  try {
    return await work.apply(object, values);
  } catch (error) {
    log("error", "a call on an object failed", {
      request,
      object: object.constructor.name,
      method,
      ...faultFacts(error),
    });
    throw error;
  }
}
