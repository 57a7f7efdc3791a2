/**
 * Pretend phones to try the text conversation on one computer. A typed text is signed and posted as a gateway would,
 * and the stalls' texts arrive on the phones. Everything is in memory and gone with the process.
 */
import { createHash, timingSafeEqual } from "node:crypto";
import { Hono } from "hono";
import { z } from "zod";
import { segments } from "../../chat/fitting/segments.ts";
import { FairId } from "../../model/basics/ids.ts";
import { type InboundText, OutboundText } from "../../model/orders/chat.ts";
import { PhoneNumber } from "../../model/orders/order.ts";
import { SIGNATURE_HEADER, sign, verify } from "../../texting/signing/signature.ts";
import { HandsetMessages } from "./handset-messages.ts";

export type HandsetOptions = {
  /** The secret shared with the worker: its GATEWAY_SECRET. */
  readonly secret: string;
  /** The number texts go to: the worker's GATEWAY_NUMBER. */
  readonly number: string;
  /** Where the worker listens; asked for only when a text is handed in, so it may start later. */
  readonly worker: () => string;
  /** The short name of the fair that the page begins with; it can be changed there. */
  readonly fair: string | null;
  /** The key of the phones: its holder can read every text and write as any of the numbers. */
  readonly key: string;
};

/** Numbers kept for fiction: 555-0100 to 555-0199 of an area code, here 212. */
const FictionNumber = PhoneNumber.refine(
  (number) => /^\+121255501\d\d$/.test(number),
  "must be between +12125550100 and +12125550199",
);

const Typed = z.strictObject({
  id: z.string().regex(/^[A-Za-z0-9_-]{8,64}$/),
  from: FictionNumber,
  fair: FairId,
  text: z.string().min(1).max(1600),
});
type Typed = z.infer<typeof Typed>;

const PATIENCE = 10_000;
const MOST_BYTES = 16 * 1024;

const digest = (text: string): Buffer => createHash("sha256").update(text).digest();

/** Whether a request has the key, compared in constant time. */
const shows = (header: string | undefined, key: string): boolean =>
  timingSafeEqual(digest(header ?? ""), digest(`Bearer ${key}`));

/** The handset's routes, to be passed to `serve`. The page itself is the worker's. */
export function handsetFor(options: HandsetOptions): (request: Request) => Promise<Response> {
  const messages = new HandsetMessages();
  const app = new Hono();

  const put = (number: string, id: string, from: "phone" | "stall", text: string, refused: string | null) => {
    const { parts, alphabet } = segments(text);
    messages.put(number, { id, from, text, at: new Date().toISOString(), parts, alphabet, refused });
  };

  // What the worker sends out is checked by its signature instead.
  app.use("/phones/:what{messages|texts}", async (c, next) => {
    if (shows(c.req.header("Authorization"), options.key)) return next();
    return c.json({ detail: "Open the pretend phones by the link that the demo printed." }, 401);
  });

  /** The messages of the phones in `of`; 304 if nothing has changed. */
  app.get("/phones/messages", (c) => {
    const tag = `"v${messages.version}"`;
    if (c.req.header("If-None-Match") === tag) return c.body(null, 304, { ETag: tag });
    const numbers = (c.req.queries("of") ?? []).slice(0, 8);
    const phones = numbers.map((number) => ({ number, messages: messages.of(number) }));
    return c.json({ fair: options.fair, number: options.number, phones }, 200, { ETag: tag });
  });

  app.post("/phones/texts", async (c) => {
    const typed = Typed.safeParse(await bodyOf(c.req.raw));
    if (!typed.success) return c.json({ detail: z.prettifyError(typed.error) }, 422);
    const refused = await handIn(options, typed.data);
    put(typed.data.from, typed.data.id, "phone", typed.data.text, refused);
    return refused === null ? c.json({ taken: true }) : c.json({ detail: refused }, 502);
  });

  app.post("/phones/outbound", async (c) => {
    const body = await c.req.text();
    if (!(await verify(options.secret, body, c.req.header(SIGNATURE_HEADER)))) {
      return c.json({ detail: "The text's signature does not fit its body." }, 401);
    }
    const text = OutboundText.safeParse(jsonOf(body));
    if (!text.success) return c.json({ detail: z.prettifyError(text.error) }, 422);
    put(text.data.to, text.data.id, "stall", text.data.text, null);
    return c.json({ delivered: true });
  });

  return async (request) => app.fetch(request);
}

/** Hands a text in as the gateway would; gives why it was not taken, or null. */
async function handIn({ secret, number, worker }: HandsetOptions, { id, from, fair, text }: Typed) {
  const body = JSON.stringify({ id: `handset-${id}`, from, to: number, text } satisfies InboundText);
  try {
    const response = await fetch(`${worker()}/v1/fairs/${fair}/texts`, {
      method: "POST",
      headers: { "Content-Type": "application/json", [SIGNATURE_HEADER]: await sign(secret, body) },
      body,
      signal: AbortSignal.timeout(PATIENCE),
    });
    if (response.ok) return null;
    const problem = jsonOf(await response.text());
    const detail = z.object({ detail: z.string() }).safeParse(problem);
    return detail.success ? detail.data.detail : `The worker answered ${response.status}.`;
  } catch (error) {
    return `The worker could not be reached: ${String(error)}`;
  }
}

/** A request's JSON, or null if it is not JSON or too large. */
async function bodyOf(request: Request): Promise<unknown> {
  const text = await request.text();
  return text.length > MOST_BYTES ? null : jsonOf(text);
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
