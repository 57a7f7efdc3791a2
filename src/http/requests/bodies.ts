/** Limits on a request's body: its media type, its size, and the time it takes to arrive. */
import type { Context, MiddlewareHandler } from "hono";
import { bodyLimit } from "hono/body-limit";
import type { App } from "./env.ts";
import { type ProblemResponse, problem } from "./problems.ts";

const KIB = 1024;
/** The most bytes of a body: few, except for a stall that moves with its menu and pictures, or with its journal. */
const MOST_KIB = 64;
/** A part of a whole stall. */
const PART = /^\/v1\/fairs\/[^/]+\/stalls\/[^/]+\/everything\/[^/]+\/\d+$/;
const mostKib = (path: string): number =>
  path.endsWith("/everything") ? 24 * KIB : path.endsWith("/carry") || PART.test(path) ? 8 * KIB : MOST_KIB;

const HAS_BODY: ReadonlySet<string> = new Set(["POST", "PUT", "PATCH"]);
const READ_TYPES = /^(?:application\/json|text\/csv)(?:\s*;|$)/i;
/** The address of a gateway's web hook: any media type is read, by the fair's mapping. */
const WEB_HOOK = /^\/v1\/fairs\/[^/]+\/(?:texts|receipts)$/;

const PICTURE = /^\/v1\/fairs\/[^/]+\/stalls\/[^/]+\/designs\/[^/]+\/picture$/;
const PICTURE_TYPES = /^image\/(?:png|jpeg|webp)$/i;

/** Turns away a body of a kind that is not read here. */
export const readable: MiddlewareHandler<App> = (c, next) => {
  const type = c.req.header("Content-Type") ?? "";
  const hasBody = HAS_BODY.has(c.req.method) && (c.req.header("Content-Length") ?? "0") !== "0";
  const isPicture = PICTURE.test(c.req.path);
  const isRead =
    READ_TYPES.test(type) || WEB_HOOK.test(c.req.path) || (isPicture && PICTURE_TYPES.test(type));
  if (!hasBody || isRead) return next();
  const title = "Unsupported type";
  const detail = isPicture
    ? "Send the picture as image/png, image/jpeg or image/webp."
    : "Send the body as application/json (stock also as text/csv).";
  return Promise.resolve(problem(c, "unsupported-type", [415, title, detail]));
};

/** As long as a bad network takes. */
const PATIENCE_SECONDS = 20;

function tooLarge(c: Context<App>, mostKib: number): ProblemResponse {
  const detail = `A request may hold at most ${mostKib} KiB here. Send it in parts.`;
  return problem(c, "too-large", [413, "Too large", detail]);
}

/**
 * Reads the whole body before anything else happens; refuses one that is too large or never ends. A large body must
 * state its length, and is read only after its key was found valid, so that strangers cannot fill the memory.
 */
export const whole: MiddlewareHandler<App> = async (c, next) => {
  if (c.req.raw.body === null) return next();
  const most = mostKib(c.req.path);
  if (most > MOST_KIB) return saysItsLength(c, most) ?? next();

  let timer: ReturnType<typeof setTimeout> | undefined;
  const tooSlow = () => {
    const detail = `The body did not come whole within ${PATIENCE_SECONDS} seconds. Nothing was changed: send it again.`;
    return problem(c, "too-slow", [408, "Too slow", detail]);
  };
  const late = new Promise<Response>((resolve) => {
    timer = setTimeout(() => resolve(tooSlow()), PATIENCE_SECONDS * 1000);
  });
  // The request keeps the body for later readers.
  const read = async (): Promise<void> =>
    void (await (PICTURE.test(c.req.path) ? c.req.arrayBuffer() : c.req.text()));
  const limit = bodyLimit({ maxSize: most * KIB, onError: () => tooLarge(c, most) });
  const refused = await Promise.race([limit(c, read).catch(tooSlow), late]);
  clearTimeout(timer);
  return refused ?? next();
};

function saysItsLength(c: Context<App>, most: number): ProblemResponse | null {
  const length = c.req.header("Content-Length");
  if (length === undefined)
    return problem(c, "length-needed", [411, "Length needed", "Say in Content-Length how long the body is."]);
  return Number(length) > most * KIB ? tooLarge(c, most) : null;
}
