/** Requests to the worker. A dead network is an answer like any other, with status 0. */
import { spelt } from "./spelling.ts";

export type Reply = {
  readonly status: number;
  readonly body: unknown;
  readonly tag: string | null;
  /** The worker's own clock, in milliseconds since 1970, if the answer has it. */
  readonly date: number | null;
};

export type Request = {
  readonly method?: "GET" | "POST" | "PUT" | "DELETE";
  /** Sent as JSON; a blob as it is. */
  readonly body?: unknown;
  /** The write's own key; the same one when it is sent again. */
  readonly once?: string;
  /** The entity tag of what the page already shows. */
  readonly have?: string | null;
  /** The entity tag that the overwritten value must still have. */
  readonly match?: string;
  /** Another type than JSON, whose text is the answer's body. */
  readonly accept?: string;
  /** The answer's body is a file of any size, a Blob, however long it takes to come. */
  readonly asFile?: true;
  /** How long the answer may take, in milliseconds. */
  readonly patience?: number;
};

const PATIENCE = 10_000;

function dateOf(response: Response): number | null {
  const date = Date.parse(response.headers.get("Date") ?? "");
  return Number.isNaN(date) ? null : date;
}

const isJson = ({ headers }: Response): boolean => (headers.get("Content-Type") ?? "").includes("json");

/** Sends requests under one address with one key. */
export function apiAt(base: string, key: () => string | null) {
  return async (
    path: string,
    { method = "GET", body, once, have, match, accept, asFile, patience = PATIENCE }: Request = {},
  ): Promise<Reply> => {
    const headers = new Headers();
    const bearer = key();
    if (bearer !== null) headers.set("Authorization", `Bearer ${bearer}`);
    if (body !== undefined)
      headers.set("Content-Type", body instanceof Blob ? body.type : "application/json");
    if (once !== undefined) headers.set("Idempotency-Key", `"${once}"`);
    if (match !== undefined) headers.set("If-Match", match);
    if (accept !== undefined) headers.set("Accept", accept);
    if (have != null) headers.set("If-None-Match", have);
    try {
      const response = await fetch(base + path, {
        method,
        headers,
        cache: "no-store",
        ...(asFile ? {} : { signal: AbortSignal.timeout(patience) }),
        ...(body === undefined ? {} : { body: body instanceof Blob ? body : JSON.stringify(body) }),
      });
      const [tag, date] = [response.headers.get("ETag"), dateOf(response)];
      if (asFile && response.ok) return { status: response.status, body: await response.blob(), tag, date };
      const text = response.status === 204 || response.status === 304 ? "" : await response.text();
      return {
        status: response.status,
        body: text === "" ? null : isJson(response) ? JSON.parse(text) : text,
        tag,
        date,
      };
    } catch {
      return { status: 0, body: null, tag: null, date: null };
    }
  };
}

export type Api = ReturnType<typeof apiAt>;

/** The name of the problem a request was refused for, "no-menu"; null if the answer is no problem. */
export function problemOf({ body }: Reply): string | null {
  const type = typeof body === "object" && body !== null && "type" in body ? body.type : null;
  return typeof type === "string" ? type.replace("/problems/", "") : null;
}

/** A refused request's advice for a person; a network failure in plain words. */
export function detailOf({ status, body }: Reply): string {
  if (status === 0) return "No connection. Try again in a moment.";
  const detail = typeof body === "object" && body !== null && "detail" in body ? body.detail : null;
  return typeof detail === "string" ? spelt(detail) : `The stall answered ${status}. Try again.`;
}
