/** While a simulation runs, only the shells may ask for the time and for chance, and are given the simulation's. */
import { shells } from "./shells.ts";
import type { World } from "./world.ts";

const SHELLS = shells();
/** Programs beside the worker are not simulated, and may use the real clock. */
const OURS = /\/(?:src\/(?!local\/)|tests\/simulation\/)/;

/** The file that asked: the nearest caller outside this one. */
function asker(): string {
  const { prepareStackTrace, stackTraceLimit } = Error;
  let file = "";
  Error.stackTraceLimit = 6;
  Error.prepareStackTrace = (_, sites) => {
    file = sites.map((site) => site.getFileName() ?? "").find((name) => !name.endsWith("/guard.ts")) ?? "";
    return "";
  };
  void new Error("who asks").stack;
  Object.assign(Error, { prepareStackTrace, stackTraceLimit });
  return file.replace(/^file:\/\//, "").replace(/\?.*$/, "");
}

/** What the shells get, an exception for the rest of our code, and what is real for the test runner. */
function answering<T>(what: string, simulated: () => T, real: () => T): () => T {
  return () => {
    const file = asker();
    if (SHELLS.has(file)) return simulated();
    if (OURS.test(file))
      throw new Error(`${file} asked for ${what} while simulating; it must be an argument`);
    return real();
  };
}

type Fetch = typeof globalThis.fetch;

/** Runs a simulation with the clock, chance and network replaced, and puts them back. */
export async function guarded<T>(world: World, fetch: Fetch, run: () => Promise<T>): Promise<T> {
  const { Date: RealDate, fetch: realFetch } = globalThis;
  const random = Math.random;
  const now = answering("Date.now", () => world.clock, RealDate.now);
  const quiet = () => {};
  const { getRandomValues, randomUUID } = crypto;
  const said = { log: console.log, info: console.info, warn: console.warn, error: console.error };
  globalThis.Date = new Proxy(RealDate, {
    construct: (target, given: [], as) => Reflect.construct(target, given.length === 0 ? [now()] : given, as),
    get: (target, name) => (name === "now" ? now : Reflect.get(target, name)),
  });
  globalThis.fetch = fetch;
  Math.random = answering("Math.random", () => world.random.next(), random);
  Object.assign(crypto, {
    getRandomValues: () => {
      throw new Error("crypto.getRandomValues while simulating");
    },
    randomUUID: () => {
      throw new Error("crypto.randomUUID while simulating");
    },
  });
  Object.assign(console, { log: quiet, info: quiet, warn: quiet, error: quiet });
  try {
    return await run();
  } finally {
    globalThis.Date = RealDate;
    globalThis.fetch = realFetch;
    Math.random = random;
    Object.assign(crypto, { getRandomValues, randomUUID });
    Object.assign(console, said);
  }
}
