/** The requests that `npm start` accepts from its network. */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Client } from "../../src/local/client.ts";
import { type RunningStall, run } from "../../src/local/run.ts";
import { type Running, start } from "../http/running.ts";

describe("npm start", () => {
  let data: string;
  let running: RunningStall;
  beforeAll(async () => {
    data = await mkdtemp(join(tmpdir(), "stallpress-"));
    running = await run({ port: 0, data }, null);
  });
  afterAll(async () => {
    await running.served.stop();
    await rm(data, { recursive: true, force: true });
  });

  it("plans for nobody without a key, and for the owner", async () => {
    const anyone = new Client(running.here);
    for (const part of ["plans", "sheets", "presses", "power", "pitch"])
      expect((await anyone.post(`/v1/${part}`, {})).status).toBe(401);
    const owner = anyone.withKey(running.secrets.OWNER_SECRET);
    expect((await owner.post("/v1/plans", {})).status).toBe(422);
  });

  it("has no pretend phones", async () => {
    const anyone = new Client(running.here);
    expect(running.phones).toBeNull();
    for (const path of ["/phones", "/phones/messages"]) expect((await anyone.get(path)).status).toBe(404);
    expect((await anyone.post("/phones/texts", {})).status).toBe(404);
  });
});

describe("a caller under the limits", () => {
  let served: Running;
  beforeAll(async () => {
    served = await start({ LIMIT_STRANGER: "5" }, { limits: true });
  });
  afterAll(() => served.stop());

  it("may send bodies of any size, and the runtime's own paths lead nowhere", async () => {
    const long = "x".repeat(300_000);
    const answer = await served.owner.post<{ type: string }>("/v1/fairs", { name: long });
    expect(answer.body.type).toMatch(/^\/problems\//);
    expect((await served.anyone.get("/cdn-cgi/handler/scheduled")).status).toBe(404);
    expect((await served.anyone.get("/plan")).status).toBe(200);
  });

  it("has the address of its peer, whatever the request says of it", async () => {
    const statuses: number[] = [];
    for (let n = 1; n <= 8; n++) {
      const forged = {
        "CF-Connecting-IP": `203.0.113.${n}`,
        "X-Forwarded-For": `203.0.113.${n}`,
        "MF-CF-Blob": JSON.stringify({ clientIp: `203.0.113.${n}:1` }),
      };
      const key = served.anyone.withKey("crew.1.made-up");
      statuses.push((await key.get("/v1/fairs/nowhere/stalls/tern/queue", forged)).status);
    }
    expect(statuses.filter((status) => status === 403).length).toBeLessThanOrEqual(6);
    expect(statuses.at(-1)).toBe(429);
  });
});
