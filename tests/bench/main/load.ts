/** Load from this process: a fixed number of requests over a fixed number of connections. */
import { Agent, request } from "node:http";

export type Shot = {
  readonly method: string;
  readonly path: string;
  readonly headers: Record<string, string>;
  readonly body?: string;
};

const agent = new Agent({ keepAlive: true, maxSockets: 64 });

/** Sends one request; gives its status. */
export function shoot(url: string, { method, path, headers, body }: Shot): Promise<number> {
  const { hostname, port } = new URL(url);
  return new Promise((resolve, reject) => {
    const sending = request({ hostname, port, method, path, headers, agent }, (response) => {
      response.resume();
      response.once("end", () => resolve(response.statusCode ?? 0));
    });
    sending.once("error", reject);
    sending.end(body);
  });
}

/** Requests a second of `count` requests over `connections`; every status must be the one expected. */
export async function rate(
  url: string,
  count: number,
  connections: number,
  expected: number,
  shot: (n: number) => Shot,
): Promise<number> {
  let next = 0;
  const lane = async (): Promise<void> => {
    for (let n = next++; n < count; n = next++) {
      const status = await shoot(url, shot(n));
      if (status !== expected)
        throw new Error(`${shot(n).method} ${shot(n).path}: ${status} instead of ${expected}`);
    }
  };
  const before = performance.now();
  await Promise.all(Array.from({ length: connections }, lane));
  return count / ((performance.now() - before) / 1000);
}
