/**
 * Keys, tokens and claims: derived from the deployment's secret by HMAC-SHA-256, so that none is stored.
 * A key names its role and generation in the clear; a new generation ends the old one.
 */
import { CustomerId, type FairId, type StallId } from "../../model/basics/ids.ts";

const encoder = new TextEncoder();

function base64url(bytes: ArrayBuffer): string {
  return btoa(String.fromCharCode(...new Uint8Array(bytes)))
    .replaceAll("+", "-")
    .replaceAll("/", "_")
    .replaceAll("=", "");
}

function fromBase64url(text: string): Uint8Array<ArrayBuffer> | null {
  if (!/^[A-Za-z0-9_-]{43}$/.test(text)) return null;
  const binary = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
  return Uint8Array.from(binary, (character) => character.charCodeAt(0));
}

/** The checked keys an isolate remembers, so that a screen that polls is not checked every time. */
const REMEMBERED = 2000;

/** Makes and checks every key of one deployment. Comparing is left to `crypto.subtle.verify`: constant time. */
export class Keys {
  readonly #key: Promise<CryptoKey>;
  readonly #good = new Set<string>();

  constructor(secret: string) {
    const usages: ("sign" | "verify")[] = ["sign", "verify"];
    this.#key = crypto.subtle.importKey(
      "raw",
      encoder.encode(secret),
      { name: "HMAC", hash: "SHA-256" },
      false,
      usages,
    );
  }

  async #mac(what: string): Promise<string> {
    return base64url(await crypto.subtle.sign("HMAC", await this.#key, encoder.encode(what)));
  }

  async #verify(what: string, mac: string): Promise<boolean> {
    const remembered = `${what} ${mac}`;
    if (this.#good.has(remembered)) return true;
    const bytes = fromBase64url(mac);
    if (bytes === null) return false;
    const good = await crypto.subtle.verify("HMAC", await this.#key, bytes, encoder.encode(what));
    if (good) {
      if (this.#good.size >= REMEMBERED) this.#good.clear();
      this.#good.add(remembered);
    }
    return good;
  }

  async organiser(fair: FairId, generation: number): Promise<string> {
    return `organiser.${generation}.${await this.#mac(`organiser/${fair}/${generation}`)}`;
  }

  async crew(fair: FairId, stall: StallId, generation: number): Promise<string> {
    return `crew.${generation}.${await this.#mac(`crew/${fair}/${stall}/${generation}`)}`;
  }

  async press(fair: FairId, stall: StallId, generation: number): Promise<string> {
    return `press.${generation}.${await this.#mac(`press/${fair}/${stall}/${generation}`)}`;
  }

  async customer(fair: FairId, stall: StallId, customer: CustomerId): Promise<string> {
    return `customer.${customer}.${await this.#mac(`customer/${fair}/${stall}/${customer}`)}`;
  }

  async claim(fair: FairId, stall: StallId, number: number): Promise<string> {
    return `claim.${number}.${await this.#mac(`claim/${fair}/${stall}/${number}`)}`;
  }

  /** The generation of a good organiser key of this fair, else null. */
  async organiserGeneration(fair: FairId, token: string): Promise<number | null> {
    const [role, generation, mac] = parts(token);
    if (role !== "organiser" || !(await this.#verify(`organiser/${fair}/${generation}`, mac))) return null;
    return Number(generation);
  }

  /** The generation of a good key of this stall's crew, or of its presses, else null. */
  async stallGeneration(
    whose: "crew" | "press",
    { fair, stall }: { readonly fair: FairId; readonly stall: StallId },
    token: string,
  ): Promise<number | null> {
    const [role, generation, mac] = parts(token);
    if (role !== whose || !(await this.#verify(`${whose}/${fair}/${stall}/${generation}`, mac))) return null;
    return Number(generation);
  }

  /** Whose customer token it is, else null. */
  async customerOf(fair: FairId, stall: StallId, token: string): Promise<CustomerId | null> {
    const [role, customer, mac] = parts(token);
    if (role !== "customer" || !(await this.#verify(`customer/${fair}/${stall}/${customer}`, mac)))
      return null;
    return CustomerId.parse(customer);
  }

  /** Whether a claim opens this order. */
  async claims(fair: FairId, stall: StallId, number: number, token: string): Promise<boolean> {
    const [role, named, mac] = parts(token);
    return (
      role === "claim" &&
      named === String(number) &&
      (await this.#verify(`claim/${fair}/${stall}/${number}`, mac))
    );
  }

  /** An opaque id that is always the same for the same thing: a phone number, a first message. */
  async opaqueId(what: string): Promise<CustomerId> {
    return CustomerId.parse((await this.#mac(what)).slice(0, 22));
  }
}

function parts(token: string): [role: string, named: string, mac: string] {
  const [role = "", named = "", mac = "", ...rest] = token.split(".");
  return rest.length > 0 ? ["", "", ""] : [role, named, mac];
}

/** Whether two secrets are equal, in time that does not depend on where they differ. */
export async function sameSecret(given: string, kept: string): Promise<boolean> {
  const key = await crypto.subtle.generateKey({ name: "HMAC", hash: "SHA-256" }, false, ["sign", "verify"]);
  const mac = await crypto.subtle.sign("HMAC", key as CryptoKey, encoder.encode(kept)); // an HMAC key is never a pair
  return crypto.subtle.verify("HMAC", key as CryptoKey, mac, encoder.encode(given));
}

/** SHA-256 of some text as base64url: the fingerprint of a request's body. */
export async function fingerprint(text: string): Promise<string> {
  return base64url(await crypto.subtle.digest("SHA-256", encoder.encode(text)));
}

/** The hash of a token or claim in a stall's file: 132 bits of its SHA-256, from which nobody can make it. */
export const issuedHash = async (token: string): Promise<string> => (await fingerprint(token)).slice(0, 22);

/** A caller's key from `Authorization: Bearer`, or null. */
export function bearer(header: string | undefined): string | null {
  const token = /^Bearer ([\w.~+/=-]{1,200})$/i.exec(header ?? "")?.[1];
  return token ?? null;
}
