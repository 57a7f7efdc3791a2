/**
 * A proxy between the network and the local runtime. The runtime trusts a caller's own address header and obeys some
 * internal headers and paths: the proxy sets the peer's real address and removes the rest.
 */
import { Agent, request as ask, createServer, type IncomingHttpHeaders } from "node:http";
import type { AddressInfo } from "node:net";

export type Front = {
  readonly port: number;
  /** Passes requests on to the runtime, which listens on this port of this computer. */
  readonly open: (port: number) => void;
  readonly stop: () => Promise<void>;
};

/** Headers that only the runtime's own parts may send, or that say who is calling. */
const OWN = /^(?:mf-|cf-|x-forwarded-|x-real-ip$|true-client-ip$|forwarded$)/;
/** Paths under which the runtime takes orders. */
const OWN_PATH = /^\/+(?:cdn-cgi|__)/i;

function passedOn(headers: IncomingHttpHeaders, peer: string): IncomingHttpHeaders {
  const kept = Object.entries(headers).filter(([name]) => !OWN.test(name));
  // An IPv4 peer on a socket for both is written as IPv6 (RFC 4291, section 2.5.5.2).
  return { ...Object.fromEntries(kept), "cf-connecting-ip": peer.replace(/^::ffff:/, "") };
}

/** Listens for the network; a request before `open` is answered 503. */
export async function openFront(host: string, port: number): Promise<Front> {
  const agent = new Agent({ keepAlive: true });
  let runtime: number | null = null;
  const server = createServer((incoming, outgoing) => {
    const { method, url = "/", headers, socket } = incoming;
    const refuse = (status: number): void => {
      if (outgoing.headersSent) outgoing.destroy();
      else outgoing.writeHead(status).end();
    };
    if (runtime === null) return refuse(503);
    if (OWN_PATH.test(url)) return refuse(404);
    const passed = ask({
      agent,
      host: "127.0.0.1",
      port: runtime,
      method,
      path: url,
      headers: passedOn(headers, socket.remoteAddress ?? ""),
    });
    passed.on("response", (answer) => {
      outgoing.writeHead(answer.statusCode ?? 502, answer.headers);
      answer.pipe(outgoing);
      answer.on("error", () => outgoing.destroy());
    });
    passed.on("error", () => refuse(502));
    outgoing.on("close", () => passed.destroy());
    incoming.pipe(passed);
    return undefined;
  });
  await new Promise<void>((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, host, resolve);
  });
  return {
    port: (server.address() as AddressInfo).port, // a server that listens on a port has such an address
    open: (to) => {
      runtime = to;
    },
    stop: async () => {
      agent.destroy();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}
