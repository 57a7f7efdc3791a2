import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { GatewayMapping, type Verification } from "../../src/model/fair/gateway.ts";
import { bindingsOf } from "../../src/texting/bindings.ts";
import { pinnedHosts } from "../../src/texting/mapping/hosts.ts";
import { answerBody, readTexts } from "../../src/texting/mapping/inbound.ts";
import { mappingFaults } from "../../src/texting/mapping/mapping-faults.ts";
import { OPEN_STANDARD, PLAIN } from "../../src/texting/mapping/mappings.ts";
import { requestFor } from "../../src/texting/mapping/outgoing.ts";
import { valueAt } from "../../src/texting/pointer.ts";
import { bytesOf, encoded, hmac } from "../../src/texting/signing/signature.ts";
import { verified } from "../../src/texting/signing/verify.ts";

const ENV = {
  GATEWAY_URL: "https://relay.example/out",
  GATEWAY_SECRET: "shared",
  GATEWAY_NUMBER: "+12125550199",
  GATEWAY_TOKEN: "token",
  GATEWAY_NOTIFY_URL: "https://stall.example/receipts",
  GATEWAY_USER: "stall",
  GATEWAY_PASSWORD: "open",
  GATEWAY_BINDINGS: "GATEWAY_TOKEN, GATEWAY_NOTIFY_URL, GATEWAY_USER, GATEWAY_PASSWORD",
  GATEWAY_HIDDEN: "not listed",
  KEY_SECRET: "never to be sent",
};
const bindings = bindingsOf(ENV);
const EXAMPLE = GatewayMapping.parse(
  JSON.parse(readFileSync(new URL("../../examples/gateway.json", import.meta.url), "utf8")),
);

/** Where a mapping has faults. */
const faults = (mapping: GatewayMapping, env: object = ENV, loopback = false) =>
  mappingFaults(mapping, bindingsOf(env), loopback, pinnedHosts(env)).map(
    ({ pointer, detail }) => `${pointer} ${detail}`,
  );

describe("a mapping without fault", () => {
  it.each([PLAIN, OPEN_STANDARD, EXAMPLE])("%#", (mapping) => {
    expect(faults(mapping)).toEqual([]);
  });
});

describe("a mistake is named with its place", () => {
  const { outbound, inbound } = EXAMPLE;
  const cases: readonly (readonly [string, GatewayMapping, string])[] = [
    [
      "an unknown slot",
      { ...EXAMPLE, outbound: { ...outbound, headers: { who: "{sender}" } } },
      "#/outbound/headers/who there is no slot {sender}",
    ],
    [
      "a binding that is missing",
      { ...EXAMPLE, outbound: { ...outbound, headers: { who: "{binding:GATEWAY_WHO}" } } },
      "#/outbound/headers/who the binding GATEWAY_WHO is missing",
    ],
    [
      "a binding of ours",
      { ...EXAMPLE, outbound: { ...outbound, headers: { who: "{binding:KEY_SECRET}" } } },
      "#/outbound/headers/who KEY_SECRET cannot be used here",
    ],
    [
      "a field that finds nothing",
      { ...EXAMPLE, inbound: { ...inbound, text: "wrds" } },
      "#/inbound/text finds nothing",
    ],
    [
      "a pointer that finds nothing",
      { ...PLAIN, inbound: { ...PLAIN.inbound, from: "/sender/number" } },
      "#/inbound/from finds nothing",
    ],
    [
      "a list that is not there",
      { ...PLAIN, inbound: { ...PLAIN.inbound, messages: "/results" } },
      "#/inbound/messages finds nothing",
    ],
    [
      "a recipient that finds nothing",
      { ...PLAIN, inbound: { ...PLAIN.inbound, to: "/two" } },
      "#/inbound/to finds nothing",
    ],
    ["unsigned texts", { ...EXAMPLE, verification: { by: "none" } }, "#/verification/by unsigned texts"],
    [
      "a time nobody signed",
      { ...EXAMPLE, verification: { ...EXAMPLE.verification, parts: [{ part: "body" }] } as never },
      "#/verification/time/header must be among",
    ],
    [
      "a text nobody signed",
      { ...PLAIN, verification: { ...PLAIN.verification, parts: [{ part: "url" }] } as never },
      "#/verification/parts must sign all that is used, or anybody could change the field /id",
    ],
    [
      "a sender nobody signed",
      {
        ...EXAMPLE,
        verification: {
          ...EXAMPLE.verification,
          parts: [
            { part: "header", name: "lantern-time" },
            { part: "field", name: "words" },
          ],
        } as never,
      },
      "#/verification/parts must sign all that is used, or anybody could change the field note, the field by",
    ],
    [
      "a receipt's id in an address nobody signed",
      {
        ...OPEN_STANDARD,
        receipts: { ...OPEN_STANDARD.receipts, id: "?mark" } as never,
        verification: { ...OPEN_STANDARD.verification, covers: ["content-digest"] } as never,
      },
      "#/verification/covers must sign all that is used, or anybody could change the query of the address",
    ],
    [
      "a number that comes out as a secret",
      { ...PLAIN, numbers: [{ number: "{binding:GATEWAY_SECRET}" }] },
      "#/numbers/0/number must be 3 to 15 digits",
    ],
    [
      "a host that the owner does not pin",
      { ...PLAIN, outbound: { ...PLAIN.outbound, url: "https://relay.example.evil.example/out" } },
      "#/outbound/url must be at relay.example: the owner",
    ],
    [
      "a binding that is not for fairs",
      { ...PLAIN, outbound: { ...PLAIN.outbound, headers: { key: "{binding:GATEWAY_HIDDEN}" } } },
      "#/outbound/headers/key the binding GATEWAY_HIDDEN is missing or not for fairs",
    ],
    [
      "a digest nobody signed",
      { ...OPEN_STANDARD, verification: { ...OPEN_STANDARD.verification, covers: ["date"] } as never },
      "#/verification/covers must name content-digest",
    ],
    [
      "a host that a text could choose",
      { ...EXAMPLE, outbound: { ...outbound, url: "https://{text}.example" } },
      "#/outbound/url must begin",
    ],
    [
      "an open line",
      { ...EXAMPLE, outbound: { ...outbound, url: "http://relay.example" } },
      "#/outbound/url must be https",
    ],
    [
      "no id",
      {
        ...EXAMPLE,
        outbound: { ...outbound, headers: {}, body: { as: "form", fields: { to: "{to}", text: "{text}" } } },
      },
      "#/outbound nothing carries {id}",
    ],
    [
      "no text",
      { ...EXAMPLE, outbound: { ...outbound, body: { as: "form", fields: { to: "{to}" } } } },
      "#/outbound nothing carries {text}",
    ],
    ["no such country", { ...EXAMPLE, country: "XQ" }, "#/country"],
    ["no such number", { ...EXAMPLE, numbers: [{ number: "call us" }] }, "#/numbers/0/number"],
    [
      "a reply that has no place",
      { ...EXAMPLE, inbound: { ...inbound, answer: { ...inbound.answer, body: "{replies}" } } },
      "#/inbound/answer/reply is missing",
    ],
  ];
  it.each(cases)("%s", (_, mapping, said) => {
    expect(faults(mapping).filter((line) => line.startsWith(said))).toHaveLength(1);
  });
  it("a secret that is missing", () => {
    expect(faults(PLAIN, { ...ENV, GATEWAY_SECRET: undefined })).toEqual([
      expect.stringContaining("#/verification/secret the binding GATEWAY_SECRET is missing"),
      expect.stringContaining("#/outbound/signature/secret the binding GATEWAY_SECRET is missing"),
    ]);
  });
  it("unsigned texts are fine if nobody else can call", () => {
    expect(faults({ ...EXAMPLE, verification: { by: "none" } }, ENV, true)).toEqual([]);
  });
});

describe("RFC 6901", () => {
  // The document and pointers of that RFC's section 5.
  const document = {
    foo: ["bar", "baz"],
    "": 0,
    "a/b": 1,
    "c%d": 2,
    "e^f": 3,
    "g|h": 4,
    "i\\j": 5,
    'k"l': 6,
    " ": 7,
    "m~n": 8,
  };
  it.each([
    ["", document],
    ["/foo", ["bar", "baz"]],
    ["/foo/0", "bar"],
    ["/", 0],
    ["/a~1b", 1],
    ["/c%d", 2],
    ["/e^f", 3],
    ["/g|h", 4],
    ["/i\\j", 5],
    ['/k"l', 6],
    ["/ ", 7],
    ["/m~0n", 8],
    ["/foo/2", undefined],
    ["/foo/length", undefined],
    ["/toString", undefined],
    ["foo", undefined],
  ])("%j", (pointer, value) => {
    expect(valueAt(document, pointer)).toEqual(value);
  });
});

describe("the example's web hook", () => {
  const url = "https://stall.example/v1/fairs/brackenfield/texts";
  const body = String(EXAMPLE.inbound.sample);
  const now = Date.parse("2027-06-12T14:00:00Z");
  const hook = async (time: number, secret = "shared") => {
    const said = `${time}.${url}.${body}`;
    const mac = encoded(await hmac(bytesOf(secret), "SHA-512", bytesOf(said)), "base64");
    const headers = new Map([
      ["lantern-time", String(time)],
      ["lantern-seal", `v1,${mac}`],
    ]);
    return { method: "POST", url, headers, body };
  };
  const check = (request: Awaited<ReturnType<typeof hook>>) =>
    verified(EXAMPLE.verification, request, { bindings, loopback: false, now });
  it("is verified over its time, address and body, within the tolerance only", async () => {
    expect(await check(await hook(now / 1000))).toBe(true);
    expect(await check(await hook(now / 1000 - 299))).toBe(true);
    expect(await check(await hook(now / 1000 - 301))).toBe(false);
    expect(await check(await hook(now / 1000 + 301))).toBe(false);
    expect(await check(await hook(now / 1000, "another"))).toBe(false);
    expect(await check({ ...(await hook(now / 1000)), url: `${url}?more` })).toBe(false);
    expect(await check({ ...(await hook(now / 1000)), body: `${body}&x=1` })).toBe(false);
    expect(await check({ ...(await hook(now / 1000)), headers: new Map() })).toBe(false);
  });
  it("is read", () => {
    expect(readTexts(EXAMPLE.inbound, body)).toMatchObject({
      ok: true,
      value: [{ id: "N-4411", from: "+12125550100", to: "+12125550199", text: "tern 1 navy L" }],
    });
  });
  it("sends a text as a form", async () => {
    const text = { id: "b.tern.1", from: "+12125550199", to: "+12125550100", text: "Ready & waiting = 1" };
    const request = await requestFor(EXAMPLE.outbound, text, bindings);
    expect(request.url).toBe("https://relay.example/out");
    expect(Object.fromEntries(new URLSearchParams(request.body))).toEqual({
      mark: "b.tern.1",
      by: "12125550199",
      for: "12125550100",
      words: "Ready & waiting = 1",
    });
    // RFC 7617: the user and the password, joined by a colon, in base64.
    expect(request.headers["authorization"]).toBe(`Basic ${btoa("stall:open")}`);
  });
});

describe("a shared secret in a header, and form fields signed in the order of their names", () => {
  const surroundings = { bindings, loopback: false, now: 0 };
  const request = (headers: readonly (readonly [string, string])[], body = "") => ({
    method: "POST",
    url: "https://stall.example/",
    headers: new Map(headers),
    body,
  });
  it("takes the secret and nothing like it", async () => {
    const rule = {
      by: "header",
      header: "authorization",
      secret: "GATEWAY_SECRET",
      prefix: "Bearer ",
    } as const;
    const said = (value: string) => verified(rule, request([["authorization", value]]), surroundings);
    expect(await said("Bearer shared")).toBe(true);
    for (const wrong of ["shared", "Bearer share", "Bearer shared ", "", "Bearer "])
      expect(await said(wrong)).toBe(false);
    expect(await verified({ ...rule, secret: "GATEWAY_NONE", prefix: "" }, request([]), surroundings)).toBe(
      false,
    );
  });
  it("signs the address and every field", async () => {
    const rule: Verification = {
      by: "hmac",
      secret: "GATEWAY_SECRET",
      hash: "SHA-1",
      encoding: "base64",
      header: "seal",
      prefix: "",
      parts: [{ part: "url" }, { part: "fields" }],
      joiner: "",
    };
    const mac = encoded(
      await hmac(bytesOf("shared"), "SHA-1", bytesOf("https://stall.example/a1b2")),
      "base64",
    );
    expect(await verified(rule, request([["seal", mac]], "b=2&a=1"), surroundings)).toBe(true);
    expect(await verified(rule, request([["seal", mac]], "b=2&a=2"), surroundings)).toBe(false);
  });
});

describe("an answer that carries the reply", () => {
  const answering = (contentType: "text/xml" | "application/json", body: string, reply: string) =>
    answerBody({ ...PLAIN.inbound, answer: { status: 200, contentType, body, reply } }, [
      'Tea & "cake" <now>',
      "two",
    ]);
  it("is escaped as XML", () => {
    expect(answering("text/xml", "<a>{replies}</a>", "<r>{text}</r>")).toBe(
      "<a><r>Tea &amp; &quot;cake&quot; &lt;now&gt;</r><r>two</r></a>",
    );
  });
  it("is escaped as JSON", () => {
    const said = answering("application/json", '{"r":[{replies}]}', '{"t":"{text}"}');
    expect(JSON.parse(said)).toEqual({ r: [{ t: 'Tea & "cake" <now>' }, { t: "two" }] });
  });
});

describe("several texts in one web hook", () => {
  it("are read in the order they were sent", () => {
    const mapping = { ...PLAIN.inbound, messages: "/results", at: "/at" };
    const text = (id: string, at: number) => ({ id, from: "+12125550100", to: "1", text: id, at });
    const body = JSON.stringify({ results: [text("b", 1_800_000_002), text("a", 1_800_000_001)] });
    const read = readTexts(mapping, body);
    expect(read.ok && read.value.map(({ id }) => id)).toEqual(["a", "b"]);
  });
});
