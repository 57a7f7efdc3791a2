/**
 * Every route of the worker's own OpenAPI document, tried with every kind of key. What is expected comes from the
 * document, so a route that is added is tried without being named here.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { seededRandom } from "../../src/maths/random.ts";
import { Problem } from "../../src/model/basics/problem.ts";
import {
  addressOf,
  bodySchema,
  type Document,
  instancesOf,
  type Place,
  type Route,
  routesOf,
} from "./document.ts";
import { BUNDLING, bundled, type InProcess } from "./in-process.ts";
import type { Instances } from "./instances.ts";
import { type Keyring, keyring, type ShownKey } from "./keyring.ts";

let worker: InProcess;
let ring: Keyring;
let routes: readonly Route[];
let instances: Instances;
let document: Document;

beforeAll(async () => {
  worker = (await bundled())();
  ({ body: document } = await worker.anyone.get<Document>("/v1/openapi.json"));
  routes = routesOf(document);
  instances = instancesOf(document, seededRandom(20270501));
  ring = await keyring(worker);
}, BUNDLING);

const GHOST: Place = { fair: "ghost", stall: "ghost", number: 999 };
/** Well-formed and of no route's shape, so that a door that opens changes nothing. */
const NOTHING_MUCH = "[]";

type Answer = { readonly status: number; readonly headers: Headers; readonly problem: Problem | null };
let sent = 0;

async function knock(route: Route, address: string, key: ShownKey, body = NOTHING_MUCH): Promise<Answer> {
  const isWrite = route.method !== "GET";
  const response = await worker.fetch(
    new Request(`http://stallpress.test${address}`, {
      method: route.method,
      headers: {
        ...(key.header === null ? {} : { authorization: key.header }),
        ...(isWrite
          ? {
              "content-type": "application/json",
              "content-length": String(body.length),
              "idempotency-key": `knocking-${++sent}`,
            }
          : {}),
      },
      ...(isWrite ? { body } : {}),
    }),
  );
  const text = await response.text();
  const isProblem = response.headers.get("content-type") === "application/problem+json";
  return {
    status: response.status,
    headers: response.headers,
    problem: isProblem ? Problem.parse(JSON.parse(text)) : null,
  };
}

type Expected = "in" | 401 | 403;

/** The document's answer for a key at a route. */
function expected(route: Route, key: ShownKey): Expected {
  if (route.keys.includes("gateway")) return 401;
  if (route.keys.length === 0) return "in";
  if (key.header === null) return route.open ? "in" : 401;
  if (key.misshapen === true) return 401;
  return key.role !== null && route.keys.includes(key.role) ? "in" : 403;
}

const came = ({ status }: Answer): Expected => (status === 401 || status === 403 ? status : "in");

describe("the document", () => {
  it("says of every route who may call it, by kinds of key it describes", () => {
    expect(routes.length).toBeGreaterThan(30);
    const kinds = new Set(routes.flatMap(({ keys }) => keys));
    expect([...kinds].sort()).toEqual(Object.keys(document.components.securitySchemes).sort());
    // A key that opens nothing, or a route that no key opens, would be a mistake.
    expect(kinds.size).toBe(7);
  });
});

const UNKEPT = /^(?:private, )?no-(?:store|cache)$/;

describe("every route and every key", () => {
  it("opens to the callers in the OpenAPI document and to nobody else, with security headers on every answer", async () => {
    const wrong: string[] = [];
    for (const route of routes) {
      const address = addressOf(route, ring.place, instances);
      const keys = ring.keys.filter(({ expired }) => expired !== true);
      const answers = await Promise.all(keys.map((key) => knock(route, address, key)));
      answers.forEach((answer, index) => {
        const key = keys[index] as ShownKey; // an answer each
        const should = expected(route, key);
        if (came(answer) !== should || answer.status >= 500)
          wrong.push(`${route.method} ${route.path} with ${key.name}: ${answer.status}, not ${should}`);
        const { headers, problem, status } = answer;
        if (status === 401 && headers.get("www-authenticate") === null)
          wrong.push(`${address}: 401 without a way in`);
        if (status >= 400 && problem?.status !== status)
          wrong.push(`${address}: ${status} without a problem`);
        const request = headers.get("x-request-id");
        if (problem !== null && problem.instance !== `urn:uuid:${request}`)
          wrong.push(`${address}: another request`);
        // What every visitor of a fair reads alike may be kept for some seconds, and nothing else for longer than a request.
        const kept = route.path.endsWith("/seen") && status === 200 ? /^public, max-age=\d$/ : UNKEPT;
        if (!kept.test(headers.get("cache-control") ?? "")) wrong.push(`${address}: may be kept`);
        if (!headers.get("content-security-policy")?.startsWith("default-src 'none'"))
          wrong.push(`${address}: no policy`);
        if (headers.get("x-content-type-options") !== "nosniff") wrong.push(`${address}: may be sniffed`);
      });
    }
    expect(wrong).toEqual([]);
  });

  it("answers alike for a missing thing and for somebody else's", async () => {
    const different: string[] = [];
    const said = ({ status, problem }: Answer) => JSON.stringify([status, { ...problem, instance: "" }]);
    for (const route of routes.filter(({ keys, open }) => keys.length > 0 && !open)) {
      // A signature fits no fair that is not there, and a key that is good is no secret from itself.
      const wrong = ring.keys.filter(({ role }) => role === null);
      for (const key of wrong) {
        const [real, ghost] = await Promise.all([
          knock(route, addressOf(route, ring.place, instances), key),
          knock(route, addressOf(route, GHOST, instances), key),
        ]);
        if (said(real) !== said(ghost)) different.push(`${route.method} ${route.path} with ${key.name}`);
      }
    }
    expect(different).toEqual([]);
  });

  it("no longer opens to a key that was replaced, whatever is asked with it", async () => {
    const wrong: string[] = [];
    for (const route of routes) {
      for (const key of ring.keys.filter(({ expired }) => expired === true)) {
        if (expected(route, key) !== "in" || route.keys.length === 0) continue;
        const schema = bodySchema(route);
        let answer: Answer | null = null;
        // What a schema cannot say in JSON Schema makes some of the drawn bodies wrong: others are drawn.
        for (
          let tries = 0;
          tries < 200 && (answer === null || answer.status === 400 || answer.status === 422);
          tries++
        ) {
          const body = schema === null ? undefined : JSON.stringify(instances.of(schema));
          answer = await knock(route, addressOf(route, ring.place, instances), key, body);
        }
        if (answer?.status !== 403)
          wrong.push(`${route.method} ${route.path} with ${key.name}: ${answer?.status}`);
      }
    }
    expect(wrong).toEqual([]);
  });
});
