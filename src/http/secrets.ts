/** The deployment's two secrets: all keys are derived from one, the other makes fairs. A guessable one opens everything. */
import type { Env } from "./requests/env.ts";

const SHORTEST = 32;
const NAMES = ["KEY_SECRET", "OWNER_SECRET"] as const;
type Name = (typeof NAMES)[number];

/** The worker was asked for something that needs a secret it does not have. */
export class SecretFault extends Error {}

/** The fault of a secret and what to do, or null; never the secret itself. */
function faultOf(env: Env, name: Name): string | null {
  const secret = env[name] ?? "";
  if (secret.length >= SHORTEST) return null;
  const wrong = secret === "" ? "is missing" : `is shorter than ${SHORTEST} characters`;
  return `${name} ${wrong}. Set it to ${SHORTEST} random characters or more: npx wrangler secret put ${name}`;
}

/** Every missing or short secret. */
export const secretFaults = (env: Env): readonly string[] =>
  NAMES.flatMap((name) => faultOf(env, name) ?? []);

/** The secret; throws a SecretFault if it is missing or short. */
export function secretOf(env: Env, name: Name): string {
  const fault = faultOf(env, name);
  if (fault !== null) throw new SecretFault(fault);
  return env[name] ?? "";
}
