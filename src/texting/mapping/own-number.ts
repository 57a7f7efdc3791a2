/** The number that a mapping says is ours. It is shown to everybody, so nothing that is not a number ever comes out. */
import type { Bindings } from "../bindings.ts";

const NUMBER = /^\+?[0-9]{3,15}$/;

/** The number itself, or null if its binding is missing or holds anything else. */
export function numberOf(template: string, bindings: Bindings): string | null {
  const slot = /^\{binding:([A-Z0-9_]+)\}$/.exec(template)?.[1];
  const number = slot === undefined ? template : bindings(slot);
  return number !== undefined && NUMBER.test(number) ? number : null;
}
