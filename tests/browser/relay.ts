/** A proxy to a worker that a test can control: what passes, and what is changed on the way. */
import { createServer, type IncomingMessage, type ServerResponse } from "node:http";

export type Relay = {
  readonly url: string;
  /** Changes the text of an answer on its way, by its path. */
  change: (path: string, text: string) => string;
  readonly stop: () => Promise<void>;
};

async function bodyOf(request: IncomingMessage): Promise<Buffer> {
  const parts: Buffer[] = [];
  for await (const part of request) parts.push(part as Buffer); // a stream of bytes gives buffers
  return Buffer.concat(parts);
}

export async function relayTo(url: string): Promise<Relay> {
  const relay = { change: (_path: string, text: string) => text };
  const pass = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const path = request.url ?? "/";
    const method = request.method ?? "GET";
    const headers = new Headers();
    for (const [name, value] of Object.entries(request.headers))
      if (typeof value === "string" && !/^(host|connection|if-none-match)$/.test(name))
        headers.set(name, value);
    const body = await bodyOf(request);
    const answer = await fetch(url + path, {
      method,
      headers,
      ...(body.length === 0 ? {} : { body: new Uint8Array(body) }),
    });
    const text = relay.change(path, await answer.text());
    const kept = [...answer.headers].filter(
      ([name]) => !/^(content-(length|encoding)|transfer-encoding|connection)$/.test(name),
    );
    response.writeHead(answer.status, Object.fromEntries(kept));
    response.end(answer.status === 304 || answer.status === 204 ? undefined : text);
  };
  const server = createServer((request, response) => {
    pass(request, response).catch(() => response.destroy());
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const address = server.address();
  const port = typeof address === "object" && address !== null ? address.port : 0;
  return Object.assign(relay, {
    url: `http://127.0.0.1:${port}`,
    stop: () =>
      new Promise<void>((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  });
}
