/** Bodies that never end hold up nobody, and nothing of them is kept. */
import { once } from "node:events";
import { connect, type Socket } from "node:net";
import { afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { at, example, start } from "../http/running.ts";
import { BUNDLING, bundled, type InProcess } from "./in-process.ts";

describe("a body that stops coming", () => {
  let worker: InProcess;
  beforeAll(async () => {
    worker = (await bundled())();
  }, BUNDLING);
  afterEach(() => void vi.useRealTimers());

  const trickled = (path: string, sent: ReadableStream): Promise<Response> =>
    worker.fetch(
      new Request(`http://stallpress.test${path}`, {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: sent,
        duplex: "half",
      } as RequestInit), // Node wants it said that the answer may come first
    );

  it("is given up after twenty seconds, and not before", async () => {
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
    const stalled = new ReadableStream({
      start: (stream) => stream.enqueue(new TextEncoder().encode('{"id": "never-whole", ')),
    });
    let answer: Response | undefined;
    const answered = trickled("/v1/fairs/brackenfield/stalls/tern/chat", stalled).then((response) => {
      answer = response;
      return response;
    });
    await vi.advanceTimersByTimeAsync(19_999);
    expect(answer).toBeUndefined();
    await vi.advanceTimersByTimeAsync(1);
    const { status } = await answered;
    expect([status, ((await (await answered).json()) as Problem).detail]).toEqual([
      408,
      expect.stringContaining("20 seconds"),
    ]);
  });

  it("or would be a large one, is not read at all before the key was looked at", async () => {
    const path = "/v1/fairs/brackenfield/stalls/tern/everything";
    let read = 0;
    const pull = (): void => {
      read += 1;
    };
    const never = (): ReadableStream => new ReadableStream({ pull }, { highWaterMark: 0 });
    const large = (headers: Readonly<Record<string, string>>): Promise<Response> =>
      worker.fetch(
        new Request(`http://stallpress.test${path}`, {
          method: "PUT",
          headers: { "content-type": "application/json", ...headers },
          body: never(),
          duplex: "half",
        } as RequestInit), // as above
      );
    expect((await large({})).status).toBe(411);
    expect((await large({ "content-length": String(20 * 1024 * 1024) })).status).toBe(401);
    expect((await large({ "content-length": String(25 * 1024 * 1024) })).status).toBe(413);
    expect(read).toBe(0);
  });

  it("or breaks off, is answered as one that came too late", async () => {
    const broken = new ReadableStream({ pull: (stream) => stream.error(new Error("the phone is gone")) });
    expect((await trickled("/v1/fairs/brackenfield/stalls/tern/chat", broken)).status).toBe(408);
  });
});

it("hundreds of them at once keep no crew from taking an order", async () => {
  const running = await start();
  const sockets: Socket[] = [];
  try {
    const fair = await example(running);
    const base = at(fair);
    const crew = running.owner.withKey(fair.stalls[0]?.key ?? "");
    const { hostname, port } = new URL(running.url);
    for (let n = 0; n < 300; n++) {
      const socket = connect(Number(port), hostname);
      sockets.push(socket);
      await once(socket, "connect");
      socket.write(
        `POST ${base}/chat HTTP/1.1\r\nhost: ${hostname}\r\ncontent-type: application/json\r\ncontent-length: 90\r\n\r\n{"id": "slow-${n}", "text": `,
      );
    }
    const order = { lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }] };
    expect((await crew.post(`${base}/orders`, order)).status).toBe(201);
    const left = sockets.map((socket) => once(socket, "close"));
    for (const socket of sockets) socket.destroy();
    await Promise.all(left);
    const { body: queue } = await crew.get<QueueView>(`${base}/queue`);
    expect(queue.counts.waiting).toBe(1);
    expect((await crew.post(`${base}/orders`, order)).status).toBe(201);
  } finally {
    for (const socket of sockets) socket.destroy();
    await running.stop();
  }
});
