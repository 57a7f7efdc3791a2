/** Talks to a stall through its public API, as any program would: used by the demo, the crowd and the tests. */
import { randomUUID } from "node:crypto";

export type Reply<T> = { readonly status: number; readonly headers: Headers; readonly body: T };

type Fetch = (request: Request) => Promise<Response>;

/** A request with its usual headers: a key if there is one, and an Idempotency-Key on each write. */
export class Client {
  readonly #url: string;
  readonly #key: string | null;
  readonly #fetch: Fetch;

  /** `fetch` may replace the network. */
  constructor(url: string, key: string | null = null, fetch: Fetch = globalThis.fetch) {
    this.#url = url;
    this.#key = key;
    this.#fetch = fetch;
  }

  withKey(key: string | null): Client {
    return new Client(this.#url, key, this.#fetch);
  }

  /** Sends one request; the caller names the type that the route documents. */
  async send<T>(
    method: string,
    path: string,
    body?: unknown,
    headers: Readonly<Record<string, string>> = {},
  ): Promise<Reply<T>> {
    const write = method !== "GET";
    const asItIs = typeof body === "string" || body instanceof Uint8Array ? (body as BodyInit) : null; // both are bodies
    const request = new Request(`${this.#url}${path}`, {
      method,
      headers: {
        ...(this.#key === null ? {} : { authorization: `Bearer ${this.#key}` }),
        ...(write ? { "idempotency-key": `"${randomUUID()}"` } : {}),
        ...(body === undefined ? {} : { "content-type": "application/json" }),
        ...headers,
      },
      ...(body === undefined ? {} : { body: asItIs ?? JSON.stringify(body) }),
      signal: AbortSignal.timeout(30_000),
    });
    const response = await this.#fetch(request);
    const text = await response.text();
    const isJson = (response.headers.get("content-type") ?? "").includes("json") && text !== "";
    return {
      status: response.status,
      headers: response.headers,
      body: (isJson ? JSON.parse(text) : text) as T,
    }; // as documented
  }

  get<T>(path: string, headers?: Readonly<Record<string, string>>): Promise<Reply<T>> {
    return this.send<T>("GET", path, undefined, headers);
  }

  post<T>(path: string, body?: unknown, headers?: Readonly<Record<string, string>>): Promise<Reply<T>> {
    return this.send<T>("POST", path, body ?? {}, headers);
  }

  delete<T>(path: string): Promise<Reply<T>> {
    return this.send<T>("DELETE", path);
  }

  put<T>(path: string, body: unknown, headers?: Readonly<Record<string, string>>): Promise<Reply<T>> {
    return this.send<T>("PUT", path, body, headers);
  }
}
