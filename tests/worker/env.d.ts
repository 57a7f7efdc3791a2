import type { Env } from "../../src/http/env.ts";

declare global {
  namespace Cloudflare {
    interface Env extends TestEnv {}
  }
}

type TestEnv = Env;
