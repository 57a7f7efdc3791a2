/** A store of a newer program in the Workers runtime: the answer to its callers. */
import { evictDurableObject, runInDurableObject } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { describe, expect, it } from "vitest";
import { app } from "../../src/http/app.ts";

describe("records of a newer shape", () => {
  it.each([
    ["a stall's", "GET", "/v1/fairs/newer/stalls/tern/menu", () => env.STALL.getByName("newer/tern")],
    ["a fair's", "POST", "/v1/fairs/newer/texts", () => env.FAIR.getByName("newer")],
  ] as const)("%s are refused in words", async (_, method, path, stub) => {
    const object = stub() as unknown as DurableObjectStub;
    await runInDurableObject(object, (__, { storage }) => storage.kv.put("records-version", 99));
    await evictDurableObject(object);
    const answer = await app.request(
      `https://stallpress.test${path}`,
      { method, ...(method === "GET" ? {} : { body: "{}" }) },
      env,
    );
    expect(answer.status).toBe(503);
    expect(await answer.json()).toMatchObject({ type: "/problems/newer-records" });
  });
});
