/** `npm start`: an empty stall for real use on this computer. */
import { Client } from "./client.ts";
import { terminalCode } from "./code.ts";
import { run } from "./run.ts";
import { localSettings } from "./settings.ts";

const settings = localSettings(".data/stall");
const { here, reachable, secrets } = await run(settings, null);
const health = await new Client(here).get<{ ok: boolean }>("/v1/health");
if (!health.body.ok) throw new Error(`The store in ${settings.data} does not answer.`);

console.log(`
stallpress is running, its data in ${settings.data} (kept when you stop it).

  on this computer   ${here}
  on this network    ${reachable}
  plan a day         ${here}/plan
  pretend phones     ${here}/phones

The owner's key, to make a fair with (README, "Run a real fair"):
  ${secrets.OWNER_SECRET}

${terminalCode(reachable)}

Stop with Ctrl+C.`);
