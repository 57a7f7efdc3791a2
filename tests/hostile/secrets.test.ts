/** A deployment whose secrets are missing or can be guessed lets nobody in, and says what to do without saying them. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Problem } from "../../src/model/basics/problem.ts";
import { BUNDLING, bundled, type InProcess, logged } from "./in-process.ts";

type Health = { ok: boolean; faults: string[] };

let start: (bindings?: Readonly<Record<string, unknown>>) => InProcess;
beforeAll(async () => {
  start = await bundled();
}, BUNDLING);

const SHORT = "thirty-one-characters-no-more-0";
const FAIR = { fair: "brackenfield", name: "Brackenfield", timeZone: "UTC", openings: [] };
const TOLD = {
  missing: (name: string) => `${name} is missing. Set it to 32 random characters or more`,
  short: (name: string) => `${name} is shorter than 32 characters. Set it to 32 random characters or more`,
};

describe.each([
  ["missing", undefined],
  ["short", SHORT],
] as const)("a secret that is %s", (how, secret) => {
  it.each(["KEY_SECRET", "OWNER_SECRET"])("is named by the health check, never shown: %s", async (name) => {
    const { status, body } = await start({ [name]: secret }).anyone.get<Health>("/v1/health");
    expect(status).toBe(503);
    expect(body.ok).toBe(false);
    expect(body.faults).toHaveLength(1);
    expect(body.faults[0]).toContain(TOLD[how](name));
    expect(JSON.stringify([body, logged()])).not.toContain(SHORT);
  });

  it("opens nothing to the owner", async () => {
    const worker = start({ OWNER_SECRET: secret });
    const owner = worker.anyone.withKey(secret ?? "a-guess");
    const { status, body } = await owner.post<Problem>("/v1/fairs", FAIR);
    expect([status, body.type]).toEqual([503, "/problems/not-set-up"]);
    expect(body.detail).toContain(TOLD[how]("OWNER_SECRET"));
    expect(JSON.stringify([body, logged()])).not.toContain(SHORT);
  });

  it("makes and takes no key", async () => {
    const worker = start({ KEY_SECRET: secret });
    const made = await worker.owner.post<Problem>("/v1/fairs", FAIR);
    expect(made.status).not.toBe(201);
    const queue = "/v1/fairs/brackenfield/stalls/tern/queue";
    const asked = await worker.anyone.withKey("crew.1.a-guess").get<Problem>(queue);
    expect([asked.status, asked.body.type]).toEqual([503, "/problems/not-set-up"]);
    expect(asked.body.detail).toContain(TOLD[how]("KEY_SECRET"));
  });
});

it("secrets of 32 characters are enough", async () => {
  const worker = start({ KEY_SECRET: "k".repeat(32), OWNER_SECRET: "o".repeat(32) });
  expect((await worker.anyone.get<Health>("/v1/health")).body).toMatchObject({ ok: true, faults: [] });
});
