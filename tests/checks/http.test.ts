/**
 * RFC 9457 (problem details) section 3, RFC 9110 (conditional requests) sections 13.1.2, 13.1.3 and 15.4.5, and
 * the OpenAPI Initiative's schema for 3.1 documents as @seriousme/openapi-schema-validator 2.11.0 (MIT) ships it.
 */
import { Validator } from "@seriousme/openapi-schema-validator";
import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import { at, example, type Running, shared } from "../http/running.ts";

let running: Running;
let crew: Client;
let queue: string;

beforeAll(async () => {
  running = await shared();
  const fair = await example(running);
  queue = `${at(fair)}/queue`;
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
});

describe("RFC 9457 section 3.1: the members of a problem", () => {
  it("have the types the RFC gives them, under its media type", async () => {
    const { status, headers, body } = await running.anyone.get<Record<string, unknown>>("/v1/nothing-here");
    expect(headers.get("content-type")).toBe("application/problem+json");
    expect(typeof body["type"]).toBe("string");
    expect(typeof body["title"]).toBe("string");
    expect(typeof body["detail"]).toBe("string");
    // "The status member, if present, is only advisory": it must equal the real status anyway.
    expect(body["status"]).toBe(status);
    // A relative type is a URI reference; it must resolve against the address.
    expect(new URL(String(body["type"]), running.url).pathname).toBe("/problems/not-found");
  });
});

describe("RFC 9110: conditional requests", () => {
  it("13.1.2: If-None-Match compares weakly, over a list, and * matches anything", async () => {
    const { headers } = await crew.get(queue);
    const tag = headers.get("etag") ?? "";
    for (const condition of [tag, `W/${tag}`, `"v999999999", ${tag}`, "*"]) {
      expect([condition, (await crew.get(queue, { "if-none-match": condition })).status]).toEqual([
        condition,
        304,
      ]);
    }
    for (const condition of ['"v999999999"', '"something else"']) {
      expect([condition, (await crew.get(queue, { "if-none-match": condition })).status]).toEqual([
        condition,
        200,
      ]);
    }
  });
  it("13.1.3: If-Modified-Since is ignored where If-None-Match is there", async () => {
    const tag = (await crew.get(queue)).headers.get("etag") ?? "";
    const stale = { "if-none-match": '"v999999999"', "if-modified-since": new Date().toUTCString() };
    const fresh = { "if-none-match": tag, "if-modified-since": "Thu, 01 Jan 1970 00:00:00 GMT" };
    expect([(await crew.get(queue, stale)).status, (await crew.get(queue, fresh)).status]).toEqual([
      200, 304,
    ]);
  });
  it("15.4.5: a 304 carries the fields a 200 would have had, and no content", async () => {
    const whole = await crew.get(queue);
    const tag = whole.headers.get("etag") ?? "";
    const same = await crew.get(queue, { "if-none-match": tag });
    for (const field of ["etag", "cache-control", "vary", "content-location", "expires"]) {
      expect([field, same.headers.get(field)]).toEqual([field, whole.headers.get(field)]);
    }
    expect(same.body).toBe("");
  });
});

describe("the OpenAPI document", () => {
  it("is valid 3.1 by the official schema", async () => {
    const { body } = await running.anyone.get<{ openapi: string; paths: Record<string, unknown> }>(
      "/v1/openapi.json",
    );
    const result = await new Validator().validate(structuredClone(body));
    expect(result.errors).toBeUndefined();
    expect(result.valid).toBe(true);
    expect(body.openapi).toBe("3.1.0");
    expect(Object.keys(body.paths)).toContain("/v1/fairs/{fair}/stalls/{stall}/presses/{press}/pull");
  });
  it("names every path parameter once, and every schema it refers to", async () => {
    const { body } = await running.anyone.get<Record<string, unknown>>("/v1/openapi.json");
    const { schemas } = body["components"] as { schemas: Record<string, unknown> };
    const named = [...JSON.stringify(body).matchAll(/"#\/components\/schemas\/([^"]+)"/g)].map(
      ([, name]) => name ?? "",
    );
    expect(named.filter((name) => !(name in schemas))).toEqual([]);
  });
});
