/** A pretend text gateway: takes the texts the worker sends, each id once, and lets a test wait for them. */
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { OutboundText } from "../../src/model/orders/chat.ts";
import { SIGNATURE_HEADER, verify } from "../../src/texting/signing/signature.ts";

export type Sink = {
  readonly url: string;
  /** Texts in the order they came, repeats left out. */
  readonly texts: readonly OutboundText[];
  readonly stop: () => Promise<void>;
};

export async function openSink(secret: string): Promise<Sink> {
  const texts: OutboundText[] = [];
  const server = createServer(async (request, response) => {
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk as Buffer); // a request without an encoding gives buffers
    const body = Buffer.concat(chunks).toString("utf8");
    const signature = request.headers[SIGNATURE_HEADER.toLowerCase()];
    if (typeof signature !== "string" || !(await verify(secret, body, signature))) {
      response.writeHead(401).end();
      return;
    }
    const text = OutboundText.parse(JSON.parse(body));
    if (!texts.some(({ id }) => id === text.id)) texts.push(text);
    response.writeHead(200).end();
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address() as AddressInfo; // a server that listens on a port has such an address
  return {
    url: `http://127.0.0.1:${port}/out`,
    texts,
    stop: () =>
      new Promise((resolve, reject) => server.close((error) => (error ? reject(error) : resolve()))),
  };
}
