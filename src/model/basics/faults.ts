/** Faults: a place in a value, and what is wrong there. */

import { z } from "zod";
import type { Result } from "./result.ts";

/** One fault of a request: its place (RFC 6901 JSON Pointer in a URI fragment) and what to do. */
export const Fault = z
  .strictObject({ pointer: z.string(), detail: z.string() })
  .meta({ id: "Fault", description: "One fault of the request, with its place" });
export type Fault = z.infer<typeof Fault>;

/** A fault with what would mend it: what the planner finds in a request. */
export type MendableFault = Fault & { readonly mend: string };

/** The planner's result: a value, or every fault of the request. */
export type OrFaults<T> = Result<T, readonly MendableFault[]>;

/** The RFC 6901 pointer of a path, "#/offers/0/price". */
export function pointer(path: readonly PropertyKey[]): string {
  const parts = path.map((part) => `/${String(part).replaceAll("~", "~0").replaceAll("/", "~1")}`);
  return `#${parts.join("")}`;
}
