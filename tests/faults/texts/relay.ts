/**
 * A gateway on a bad day, run as a process: `node relay.ts PORT LOG WORKER_URL SEED`. It answers the stall's texts with
 * 500 and 429 at random, accepts some and loses the reply, and delivers texts from phones twice and out of order. It
 * logs a text before it answers, so that it can be killed and restarted.
 */
import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import { seededRandom } from "../../../src/maths/random.ts";
import { OutboundText } from "../../../src/model/orders/chat.ts";
import { SIGNATURE_HEADER, sign, verify } from "../../../src/texting/signing/signature.ts";
import { GATEWAY_SECRET } from "../../http/secrets.ts";
import type { Entry, FromPhone } from "./log.ts";

const [port, log, hook, seed] = process.argv.slice(2);
if (port === undefined || log === undefined || hook === undefined)
  throw new Error("relay.ts PORT LOG URL SEED");
const random = seededRandom(Number(seed ?? 1));
const LOST = 0.2;
const FAILED = 0.06;
const BUSY = 0.02;

const entries: Entry[] = existsSync(log)
  ? readFileSync(log, "utf8")
      .split("\n")
      .filter((line) => line !== "")
      .map((line) => JSON.parse(line) as Entry) // written below only
  : [];
const keys = new Set(entries.flatMap((entry) => (entry.is === "out" ? [entry.key] : [])));
let calm = entries.some(({ is }) => is === "calm");

function keep(entry: Entry): void {
  appendFileSync(log as string, `${JSON.stringify(entry)}\n`); // checked above
  entries.push(entry);
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(chunk as Buffer); // a request without an encoding gives buffers
  return Buffer.concat(chunks).toString("utf8");
}

/** Takes a text of the stall's; the same idempotency key is the same text. */
async function takeOut(request: IncomingMessage, response: ServerResponse): Promise<void> {
  const body = await bodyOf(request);
  const seal = request.headers[SIGNATURE_HEADER.toLowerCase()];
  if (typeof seal !== "string" || !(await verify(GATEWAY_SECRET, body, seal))) {
    response.writeHead(401).end();
    return;
  }
  if (!calm && random.chance(FAILED)) {
    response.writeHead(500).end();
    return;
  }
  if (!calm && random.chance(BUSY)) {
    response.writeHead(429, { "retry-after": "1" }).end();
    return;
  }
  const key = String(request.headers["idempotency-key"]);
  const { to, text } = OutboundText.parse(JSON.parse(body));
  if (keys.has(key)) keep({ is: "again", key });
  else {
    keys.add(key);
    keep({ is: "out", key, to, text });
  }
  if (!calm && random.chance(LOST)) request.socket.destroy();
  else response.writeHead(200).end();
}

const wait = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Delivers what a phone said until the stall has taken it: twice, the second time at some later moment. */
async function deliver(text: FromPhone): Promise<void> {
  const body = JSON.stringify(text);
  const headers = {
    "content-type": "application/json",
    [SIGNATURE_HEADER]: await sign(GATEWAY_SECRET, body),
  };
  for (let times = 0; times < 2; ) {
    await wait(random.next() * (times === 0 ? 60 : 1500));
    try {
      const init = { method: "POST", headers, body, signal: AbortSignal.timeout(10_000) };
      const { status } = await fetch(hook as string, init); // checked above
      if (status !== 200) console.error(`the worker answered a text with ${status}`);
      if (status === 200) times += 1;
    } catch {
      await wait(100);
    }
  }
  keep({ is: "delivered", id: text.id });
}

const server = createServer(async (request, response) => {
  const { pathname, searchParams } = new URL(request.url ?? "/", "http://relay");
  if (pathname === "/out") return takeOut(request, response);
  if (pathname === "/say") {
    const text = JSON.parse(await bodyOf(request)) as FromPhone; // our own phones
    if (!entries.some((entry) => entry.is === "said" && entry.text.id === text.id)) {
      keep({ is: "said", text });
      void deliver(text);
    }
    response.writeHead(200).end();
    return undefined;
  }
  if (pathname === "/calm") {
    calm = true;
    keep({ is: "calm" });
    response.writeHead(200).end();
    return undefined;
  }
  const after = Number(searchParams.get("after") ?? 0);
  response.writeHead(200, { "content-type": "application/json" }).end(JSON.stringify(entries.slice(after)));
  return undefined;
});
server.listen(Number(port), "127.0.0.1", () => {
  console.log(`serving http://127.0.0.1:${port}`);
  const delivered = new Set(entries.flatMap((entry) => (entry.is === "delivered" ? [entry.id] : [])));
  for (const entry of entries)
    if (entry.is === "said" && !delivered.has(entry.text.id)) void deliver(entry.text);
});
