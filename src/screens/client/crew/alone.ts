/** One tab of this browser at a time. */
import { nanoid } from "nanoid";
import { kept } from "../kit/kept.ts";

type Lease = { readonly holder: string; readonly until: number };

const FREE: Lease = { holder: "", until: 0 };
const LEASE = 15_000;
const LOOK_AGAIN = 500;
const me = nanoid();

/** By a lease in the tabs' shared storage: for addresses without TLS, where browsers have no locks. */
async function byLease(
  name: string,
  work: (stillAlone: () => Promise<void>) => Promise<void>,
): Promise<void> {
  const lease = kept(`alone ${name}`, FREE);
  const take = async (): Promise<boolean> => {
    const now = Date.now();
    const held = await lease.change((before) =>
      before.holder === me || before.until < now || before.until > now + LEASE
        ? { holder: me, until: now + LEASE }
        : before,
    );
    return held.holder === me;
  };
  while (!(await take())) await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN));
  try {
    await work(async () => {
      await take();
    });
  } finally {
    await lease.change((before) => (before.holder === me ? FREE : before));
  }
}

/**
 * Does the work while no other tab does work of that name, waiting for its end first. Work that takes long
 * calls `stillAlone` at least every few seconds.
 */
export async function alone(
  name: string,
  work: (stillAlone: () => Promise<void>) => Promise<void>,
): Promise<void> {
  // The types say it is always there; on an address without TLS it is not.
  if ("locks" in navigator) await navigator.locks.request(name, () => work(async () => {}));
  else await byLease(name, work);
}
