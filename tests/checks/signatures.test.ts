/**
 * RFC 9421 Appendix B.2.5 (hmac-sha256, key of B.1.5) and B.2.6 (ed25519, key of B.1.4); RFC 4231 test cases 1, 2
 * and 3; RFC 9530 digests of the same request body. RFC 2202 test cases 1 and 2 (SHA-1) are from memory of that
 * document and confirmed with Node's own HMAC.
 */
import { createHmac } from "node:crypto";
import { describe, expect, it } from "vitest";
import {
  digestFits,
  type Incoming,
  messageSignatureFits,
  type SignatureKey,
} from "../../src/texting/signing/message-signature.ts";
import { bytesOf, decoded, encoded, hmac } from "../../src/texting/signing/signature.ts";

const BODY = '{"hello": "world"}';
const SHA_512 = "WZDPaVn/7XgHaAy8pmojAkGWoRx2UFChF41A2svX+TaPm+AbwAgBWnrIiYllu7BNNyealdVLvRwEmTHWXvJwew==";
const HMAC_INPUT =
  'sig-b25=("date" "@authority" "content-type");created=1618884473;keyid="test-shared-secret"';
const HMAC_SIGNATURE = "sig-b25=:pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=:";
const ED_INPUT =
  'sig-b26=("date" "@method" "@path" "@authority" "content-type" "content-length");created=1618884473;keyid="test-key-ed25519"';
const ED_SIGNATURE =
  "sig-b26=:wqcAqbmYJ2ji2glfAMaRy4gruYYnx2nEFN2HN6jrnDnQCK1u02Gb04v9EDgwUPiu4A0w6vuQv5lIp5WPpBKRCw==:";
const NOW = 1_618_884_473_000;

const bytes = (base64: string) => decoded(base64, "base64") ?? new Uint8Array();
const SHARED: SignatureKey = {
  algorithm: "hmac-sha256",
  bytes: bytes("uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ=="),
};
const ED25519: SignatureKey = {
  algorithm: "ed25519",
  bytes: bytes("JrQLj5P_89iXES9-vFgrIy29clF9CC_oPPsw3c5D0bs"),
};

const request = (input: string, signature: string, more: Partial<Incoming> = {}): Incoming => ({
  method: "POST",
  url: "https://example.com/foo?param=Value&Pet=dog",
  body: BODY,
  ...more,
  headers: new Map([
    ["date", "Tue, 20 Apr 2021 02:07:55 GMT"],
    ["content-type", "application/json"],
    ["content-digest", `sha-512=:${SHA_512}:`],
    ["content-length", "18"],
    ["signature-input", input],
    ["signature", signature],
    ...(more.headers ?? []),
  ]),
});
const fits = (
  incoming: Incoming,
  key: SignatureKey,
  covers: readonly string[] = ["date", "@authority", "content-type"],
  now = NOW,
) => messageSignatureFits(incoming, key, { covers, toleranceSeconds: 300 }, now);

describe("RFC 9421, the worked example for hmac-sha256", () => {
  it("verifies", async () => {
    expect(await fits(request(HMAC_INPUT, HMAC_SIGNATURE), SHARED)).toBe(true);
  });
  it("fails with any byte of the signature changed", async () => {
    const mac = bytes("pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=");
    for (let index = 0; index < mac.length; index++) {
      const changed = Uint8Array.from(mac);
      changed[index] = (changed[index] ?? 0) ^ 1;
      const signature = `sig-b25=:${encoded(changed, "base64")}:`;
      expect([index, await fits(request(HMAC_INPUT, signature), SHARED)]).toEqual([index, false]);
    }
  });
  it("fails with any byte of what is signed changed", async () => {
    const date = "Tue, 20 Apr 2021 02:07:55 GMT";
    for (let index = 0; index < date.length; index++) {
      const other = date.slice(0, index) + (date[index] === "x" ? "y" : "x") + date.slice(index + 1);
      const changed = request(HMAC_INPUT, HMAC_SIGNATURE, { headers: new Map([["date", other]]) });
      expect([index, await fits(changed, SHARED)]).toEqual([index, false]);
    }
    const elsewhere = request(HMAC_INPUT, HMAC_SIGNATURE, { url: "https://example.org/foo" });
    expect(await fits(elsewhere, SHARED)).toBe(false);
    const later = HMAC_INPUT.replace("1618884473", "1618884474");
    expect(await fits(request(later, HMAC_SIGNATURE), SHARED)).toBe(false);
  });
  it("counts only what must be covered, in time, by the right key", async () => {
    const good = request(HMAC_INPUT, HMAC_SIGNATURE);
    expect(await fits(good, SHARED, ["content-digest"])).toBe(false);
    expect(await fits(good, SHARED, ["date"], NOW + 301_000)).toBe(false);
    expect(await fits(good, SHARED, ["date"], NOW + 299_000)).toBe(true);
    expect(await fits(good, { ...SHARED, keyId: "another" }, ["date"])).toBe(false);
    expect(await fits(good, { ...SHARED, keyId: "test-shared-secret" }, ["date"])).toBe(true);
    expect(await fits(good, ED25519, ["date"])).toBe(false);
  });
});

describe("RFC 9421, the worked example for ed25519", () => {
  const covers = ["date", "@method", "@path", "@authority", "content-type", "content-length"];
  it("verifies, and not with another method, path or header", async () => {
    expect(await fits(request(ED_INPUT, ED_SIGNATURE), ED25519, covers)).toBe(true);
    expect(await fits(request(ED_INPUT, ED_SIGNATURE, { method: "PUT" }), ED25519, covers)).toBe(false);
    const path = { url: "https://example.com/bar" };
    expect(await fits(request(ED_INPUT, ED_SIGNATURE, path), ED25519, covers)).toBe(false);
  });
});

describe("RFC 9530 Content-Digest", () => {
  it.each([
    ["sha-256", "X48E9qOokqqrvdts8nOJRJN3OWDUoyWxBf7kbu9DBPE="],
    ["sha-512", SHA_512],
  ])("%s of the example's body", async (name, digest) => {
    expect(await digestFits(`${name}=:${digest}:`, BODY)).toBe(true);
    expect(await digestFits(`${name}=:${digest}:`, `${BODY} `)).toBe(false);
    expect(await digestFits(undefined, BODY)).toBe(false);
  });
});

describe("RFC 4231", () => {
  const cases = [
    {
      key: new Uint8Array(20).fill(0x0b),
      data: bytesOf("Hi There"),
      sha256: "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7",
      sha512:
        "87aa7cdea5ef619d4ff0b4241a1d6cb02379f4e2ce4ec2787ad0b30545e17cdedaa833b7d6b8a702038b274eaea3f4e4be9d914eeb61f1702e696c203a126854",
    },
    {
      key: bytesOf("Jefe"),
      data: bytesOf("what do ya want for nothing?"),
      sha256: "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
      sha512:
        "164b7a7bfcf819e2e395fbe73b56e0a387bd64222e831fd610270cd7ea2505549758bf75c05a994a6d034f65f8f0e6fdcaeab1a34d4a6b4b636e070a38bce737",
    },
    {
      key: new Uint8Array(20).fill(0xaa),
      data: new Uint8Array(50).fill(0xdd),
      sha256: "773ea91e36800e46854db8ebd09181a72959098b3ef8c122d9635514ced565fe",
      sha512:
        "fa73b0089d56a284efb0f0756c890be9b1b5dbdd8ee81a3655f83e33b2279d39bf3e848279a722c806b485a47e67c807b946a337bee8942674278859e13292fb",
    },
  ];
  it.each(cases)("case %#", async ({ key, data, sha256, sha512 }) => {
    expect(encoded(await hmac(key, "SHA-256", data), "hex")).toBe(sha256);
    expect(encoded(await hmac(key, "SHA-512", data), "hex")).toBe(sha512);
  });
});

describe("RFC 2202, HMAC-SHA-1", () => {
  it.each([
    [new Uint8Array(20).fill(0x0b), "Hi There", "b617318655057264e28bc0b6fb378c8ef146be00"],
    [bytesOf("Jefe"), "what do ya want for nothing?", "effcdf6ae5eb2fa2d27416d5f184df9c259a7c79"],
  ])("case %#", async (key, data, mac) => {
    expect(encoded(await hmac(key, "SHA-1", bytesOf(data)), "hex")).toBe(mac);
    expect(createHmac("sha1", key).update(data).digest("hex")).toBe(mac);
  });
});
