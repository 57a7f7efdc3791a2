/**
 * Synchronous HMAC and SHA instead of the threaded ones, which cost a hundred times the work itself: for tests that
 * send requests by the hundred thousand. Everything else is the platform's.
 */
import { createHash, createHmac, randomBytes, timingSafeEqual } from "node:crypto";

type Quick = { readonly secret: Uint8Array; readonly hash: string };
type Algorithm = { readonly name: string; readonly hash?: string | { readonly name: string } };

const plain = (hash: Algorithm["hash"]): string =>
  String(typeof hash === "object" ? hash.name : hash)
    .replace("-", "")
    .toLowerCase();
const isQuick = (key: unknown): key is Quick => typeof key === "object" && key !== null && "secret" in key;
const bytes = (source: BufferSource): Uint8Array =>
  ArrayBuffer.isView(source)
    ? new Uint8Array(source.buffer, source.byteOffset, source.byteLength)
    : new Uint8Array(source);
const buffer = (from: Buffer): ArrayBuffer => new Uint8Array(from).buffer;
const mac = ({ secret, hash }: Quick, data: BufferSource): Buffer =>
  createHmac(hash, secret).update(bytes(data)).digest();

const { subtle } = globalThis.crypto;

/** Stands in for `crypto`: the same answers, sooner. */
export const quickCrypto = {
  getRandomValues: <T extends ArrayBufferView<ArrayBuffer>>(into: T): T =>
    globalThis.crypto.getRandomValues(into),
  randomUUID: () => globalThis.crypto.randomUUID(),
  subtle: {
    importKey: async (
      format: "raw",
      secret: BufferSource,
      algorithm: Algorithm,
      extractable: boolean,
      usages: KeyUsage[],
    ): Promise<unknown> =>
      algorithm.name === "HMAC"
        ? { secret: bytes(secret).slice(), hash: plain(algorithm.hash) }
        : subtle.importKey(format, secret, algorithm, extractable, usages),
    generateKey: async (algorithm: Algorithm): Promise<Quick> => ({
      secret: randomBytes(64),
      hash: plain(algorithm.hash),
    }),
    sign: async (
      algorithm: Algorithm | string,
      key: CryptoKey | Quick,
      data: BufferSource,
    ): Promise<ArrayBuffer> => (isQuick(key) ? buffer(mac(key, data)) : subtle.sign(algorithm, key, data)),
    verify: async (
      algorithm: Algorithm | string,
      key: CryptoKey | Quick,
      given: BufferSource,
      data: BufferSource,
    ): Promise<boolean> => {
      if (!isQuick(key)) return subtle.verify(algorithm, key, given, data);
      const made = mac(key, data);
      return bytes(given).length === made.length && timingSafeEqual(bytes(given), made);
    },
    digest: async (hash: string, data: BufferSource): Promise<ArrayBuffer> =>
      buffer(createHash(plain(hash)).update(bytes(data)).digest()),
  },
};
