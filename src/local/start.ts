/** `npm start`: an empty stall for real use on this computer. */
import { Client } from "./client.ts";
import { terminalCode } from "./code.ts";
import { localSecrets } from "./secrets.ts";
import { lanAddress, serve } from "./serve.ts";
import { gatewayBindings, localSettings } from "./settings.ts";

const settings = localSettings(".data/stall");
const secrets = await localSecrets(settings.data);
const { url, stop } = await serve({
  ...settings,
  host: "0.0.0.0",
  secrets: { ...secrets, ...gatewayBindings() },
});
const port = new URL(url).port;
const reachable = `http://${lanAddress() ?? "127.0.0.1"}:${port}`;

const health = await new Client(`http://127.0.0.1:${port}`).get<{ ok: boolean }>("/v1/health");
if (!health.body.ok) throw new Error(`The store in ${settings.data} does not answer.`);

console.log(`stallpress is running, its data in ${settings.data} (kept when you stop it).

  on this computer   http://127.0.0.1:${port}
  on this network    ${reachable}

The owner's key, to make a fair with (README, "Run a real fair"):
  ${secrets.OWNER_SECRET}

${terminalCode(reachable)}

Stop with Ctrl+C.`);

process.once("SIGINT", () => void stop().then(() => process.exit(0)));
process.once("SIGTERM", () => void stop().then(() => process.exit(0)));
