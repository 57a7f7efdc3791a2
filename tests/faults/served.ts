/** Run as a process by worker-process.ts: `node served.ts PORT FOLDER [GATEWAY_URL GATEWAY_NUMBER [INSPECTOR_PORT]]`. */
import { serve } from "../../src/local/serve.ts";
import { GATEWAY_SECRET, OWNER_SECRET } from "../http/secrets.ts";

const [port, data, gatewayUrl, gatewayNumber, inspector] = process.argv.slice(2);
if (port === undefined || data === undefined) throw new Error("served.ts PORT FOLDER");
const secrets = {
  KEY_SECRET: "a secret for tests only, and for nothing else",
  OWNER_SECRET,
  GATEWAY_SECRET,
  ...(gatewayUrl === undefined ? {} : { GATEWAY_URL: gatewayUrl }),
  ...(gatewayNumber === undefined ? {} : { GATEWAY_NUMBER: gatewayNumber }),
};
const { url } = await serve({
  port: Number(port),
  host: "127.0.0.1",
  data,
  secrets,
  ...(inspector === undefined ? {} : { inspectorPort: Number(inspector) }),
});
console.log(`serving ${url}`);
