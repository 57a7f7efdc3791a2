import type { Env } from "../../src/http/requests/env.ts";

declare global {
  namespace Cloudflare {
    interface Env extends TestEnv {}
  }
}

type TestEnv = Env;
