/** What `npm start` and `npm run demo` share: the worker on this computer and its network. */
import { createHmac } from "node:crypto";
import { handsetFor } from "./handset/handset.ts";
import { localSecrets, type Secrets } from "./secrets.ts";
import { lanAddress, type Served, type ServeOptions, serve } from "./serve.ts";
import { gatewayBindings, type LocalSettings } from "./settings.ts";

/** The number the pretend phones write to; from the range kept for fiction. */
const LOCAL_NUMBER = "+12125550199";

export type RunningStall = {
  readonly served: Served;
  readonly secrets: Secrets;
  /** As this computer reaches it. */
  readonly here: string;
  /** As phones on the same network reach it. */
  readonly reachable: string;
  /** Whether the environment names a gateway for texts. */
  readonly gateway: boolean;
  /** Opens the pretend phones; null if there are none. */
  readonly phones: string | null;
};

const TAKEN: ReadonlySet<string> = new Set(["EADDRINUSE", "ERR_ADDRESS_IN_USE"]);

/** Options of the demo only: pretend phones, and planning without a key. */
export type Demo = {
  /** The short name of the fair that the pretend phones begin with. */
  readonly fair: string;
};

/** The key of the pretend phones, derived from the secrets, so that the printed link survives a restart. */
const phonesKey = ({ KEY_SECRET }: Secrets): string =>
  createHmac("sha256", KEY_SECRET).update("pretend phones").digest("base64url");

/** Serves, or says in one line that something else has the port. */
async function serveOrSay(options: ServeOptions): Promise<Served> {
  try {
    return await serve(options);
  } catch (error) {
    if (!(error instanceof Error && "code" in error && TAKEN.has(String(error.code)))) throw error;
    console.error(
      `Port ${options.port} is taken by another program. Stop that one, or start on another: PORT=${options.port + 1} npm start`,
    );
    process.exit(1);
  }
}

/** Starts the worker; texts go to the gateway the environment names, in the demo else to pretend phones. */
export async function run(settings: LocalSettings, demo: Demo | null): Promise<RunningStall> {
  const secrets = await localSecrets(settings.data);
  const { GATEWAY_URL, GATEWAY_SECRET, GATEWAY_NUMBER } = process.env;
  const gateway = GATEWAY_URL !== undefined && GATEWAY_SECRET !== undefined && GATEWAY_NUMBER !== undefined;
  let here = `http://127.0.0.1:${settings.port}`;
  const phones = demo === null || gateway ? null : phonesKey(secrets);
  const pretended = {
    GATEWAY_URL: `${here}/phones/outbound`,
    GATEWAY_SECRET: secrets.GATEWAY_SECRET,
    GATEWAY_NUMBER: LOCAL_NUMBER,
  };
  const served = await serveOrSay({
    ...settings,
    host: "0.0.0.0",
    limits: true,
    secrets: {
      ...secrets,
      ...gatewayBindings(),
      ...(phones === null ? {} : pretended),
      ...(demo === null ? {} : { OPEN_PLANNING: "yes" }),
    },
    ...(phones === null || demo === null
      ? {}
      : {
          handset: handsetFor({
            secret: secrets.GATEWAY_SECRET,
            number: LOCAL_NUMBER,
            worker: () => here,
            fair: demo.fair,
            key: phones,
          }),
        }),
  });
  const { port } = new URL(served.url);
  here = `http://127.0.0.1:${port}`;
  return {
    served,
    secrets,
    here,
    reachable: `http://${lanAddress() ?? "127.0.0.1"}:${port}`,
    gateway,
    phones,
  };
}

/** Stops serving, and the process with it, when it is interrupted. */
export function stopOnSignal(served: Served): void {
  const stop = (): void => void served.stop().then(() => process.exit(0));
  process.once("SIGINT", stop);
  process.once("SIGTERM", stop);
}
