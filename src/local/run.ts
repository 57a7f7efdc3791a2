/** What `npm start` and `npm run demo` do alike: the worker with a handset, on this computer and its network. */
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
};

/** Serves, or says in one line that something else has the port. */
async function serveOrSay(options: ServeOptions): Promise<Served> {
  try {
    return await serve(options);
  } catch (error) {
    if (!(error instanceof Error && "code" in error && error.code === "ERR_ADDRESS_IN_USE")) throw error;
    console.error(
      `Port ${options.port} is taken by another program. Stop that one, or start on another: PORT=${options.port + 1} npm start`,
    );
    process.exit(1);
  }
}

/** Starts the worker; texts go to the gateway the environment names, else to the pretend phones. */
export async function run(settings: LocalSettings, fair: string | null): Promise<RunningStall> {
  const secrets = await localSecrets(settings.data);
  const { GATEWAY_URL, GATEWAY_SECRET, GATEWAY_NUMBER } = process.env;
  const real = GATEWAY_URL !== undefined && GATEWAY_SECRET !== undefined && GATEWAY_NUMBER !== undefined;
  let here = `http://127.0.0.1:${settings.port}`;
  const gateway = real
    ? { GATEWAY_URL, GATEWAY_SECRET, GATEWAY_NUMBER }
    : {
        GATEWAY_URL: `${here}/phones/outbound`,
        GATEWAY_SECRET: secrets.GATEWAY_SECRET,
        GATEWAY_NUMBER: LOCAL_NUMBER,
      };
  const handset = handsetFor({
    secret: gateway.GATEWAY_SECRET,
    number: gateway.GATEWAY_NUMBER,
    worker: () => here,
    fair,
  });
  const served = await serveOrSay({
    ...settings,
    host: "0.0.0.0",
    limits: true,
    secrets: { ...secrets, ...gatewayBindings(), ...gateway, OPEN_PLANNING: "yes" },
    ...(real ? {} : { handset }),
  });
  const { port } = new URL(served.url);
  here = `http://127.0.0.1:${port}`;
  const stop = (): void => void served.stop().then(() => process.exit(0));
  process.once("SIGINT", stop);
  process.once("SIGTERM", stop);
  return { served, secrets, here, reachable: `http://${lanAddress() ?? "127.0.0.1"}:${port}` };
}
