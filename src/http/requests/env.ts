/** The bindings of the worker, and what a request carries through its handlers. */

import type { Fair } from "../../fair/fair.ts";
import type { Stall } from "../../stall/stall.ts";
import type { Caller } from "./caller.ts";

/** The worker's environment: its objects, its files, and the deployment's secrets and settings. */
export type Env = {
  readonly STALL: DurableObjectNamespace<Stall>;
  readonly FAIR: DurableObjectNamespace<Fair>;
  readonly ASSETS: Fetcher;
  /** The one secret all keys are derived from. */
  readonly KEY_SECRET?: string;
  /** The secret that the owner needs to make a fair. */
  readonly OWNER_SECRET?: string;
  /** Bindings of the plain gateway; a mapping may name further bindings that begin with GATEWAY_. */
  readonly GATEWAY_URL?: string;
  readonly GATEWAY_SECRET?: string;
  readonly GATEWAY_NUMBER?: string;
  /** "only" if nobody but this computer can reach the worker. */
  readonly LOOPBACK?: string;
  /** If set to anything, planning needs no key. */
  readonly OPEN_PLANNING?: string;
  /** Calls a minute (limits.ts), and the platform's own limiters if they are bound. */
  readonly LIMIT_KEY?: string;
  readonly LIMIT_CUSTOMER?: string;
  readonly LIMIT_READER?: string;
  readonly LIMIT_STRANGER?: string;
  /** First messages on the web an hour, of one address to one stall. */
  readonly NEWCOMERS_PER_HOUR?: string;
  readonly LIMIT_PLAN?: string;
  readonly KEY_LIMITER?: RateLimit;
  readonly CUSTOMER_LIMITER?: RateLimit;
  readonly READER_LIMITER?: RateLimit;
  readonly STRANGER_LIMITER?: RateLimit;
  readonly PLAN_LIMITER?: RateLimit;
  /** Only on a laptop: the handset page and its messages. */
  readonly HANDSET?: Fetcher;
};

export type App = {
  readonly Bindings: Env;
  readonly Variables: {
    /** The request's id, a UUID made here: in the answer, in every log line, and with every call on an object. */
    readonly request: string;
    /** The caller, once the route's door has checked the key. */
    readonly caller?: Caller;
    /** True once the body was read and is valid. */
    readonly read?: boolean;
    /** Why the request was refused, if it was. */
    readonly refused?: string;
  };
};
