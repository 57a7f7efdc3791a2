/** `npm start`: a stall for real use on this computer. On an empty store it prints where to begin. */
import { Client } from "./client.ts";
import { terminalCode } from "./code.ts";
import { run, stopOnSignal } from "./run.ts";
import { copiesFolder, localSettings } from "./settings.ts";
import { keepCopies } from "./store/copies.ts";
import { isEmptyStore } from "./store/emptiness.ts";

const settings = localSettings(".data/stall");
const empty = await isEmptyStore(settings.data);
const { served, here, reachable, secrets, gateway } = await run(settings, null);
stopOnSignal(served);
const health = await new Client(here).get<{ ok: boolean; faults: readonly string[] }>("/v1/health");
if (!health.body.ok)
  throw new Error([`The store in ${settings.data} cannot be used.`, ...health.body.faults].join(" "));

const copies = copiesFolder();
keepCopies(settings.data, copies, console.error);

// The owner's secret travels in the fragment, which no server is sent and no log holds.
const begin = `${here}/start#${new URLSearchParams({ owner: secrets.OWNER_SECRET, reach: reachable })}`;

console.log(
  empty
    ? `
stallpress is running, with no fair yet. Open this link to begin one:

  ${begin}

Its data is kept in ${settings.data}, a copy every 5 minutes in ${copies}. Stop with Ctrl+C.`
    : `
stallpress is running, its data in ${settings.data} (kept when you stop it).

  on this computer   ${here}
  on this network    ${reachable}
  plan a day         ${here}/plan
  texts              ${gateway ? "by the gateway that GATEWAY_URL names" : "none: set GATEWAY_URL, GATEWAY_SECRET and GATEWAY_NUMBER"}
  copies             every 5 minutes in ${copies}; STALLPRESS_COPIES names a stick instead
  another fair       ${begin}

${terminalCode(reachable)}

Stop with Ctrl+C.`,
);
