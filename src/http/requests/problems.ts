/** Refusals as RFC 9457 problem details. */
import type { Context, TypedResponse } from "hono";
import type { ClientErrorStatusCode } from "hono/utils/http-status";
import type { Fault } from "../../model/basics/faults.ts";
import type { FairId } from "../../model/basics/ids.ts";
import type { Problem } from "../../model/basics/problem.ts";
import type { FairRefusal } from "../../model/fair/fair-refusal.ts";
import type { Refusal, WriteRefusal } from "../../model/orders/refusal.ts";
import type { ProblemName } from "../../screens/pages/front/problems.tsx";
import { elsewhere } from "../../texting/mapping/mapping-faults.ts";
import { fileWords, type ProblemWords, refusalWords } from "./refusal-words.ts";

export const PROBLEM_TYPE = "application/problem+json";

/** A problem response, as the route types know it. */
export type ProblemResponse = Response & TypedResponse<Problem, ClientErrorStatusCode, "json">;

/** The occurrence a problem is about (RFC 9457, section 3.1.5): the request's id as a URN (RFC 9562). */
export const occurrence = (c: Context): { readonly instance?: string } => {
  const request: string | undefined = c.get("request");
  return request === undefined ? {} : { instance: `urn:uuid:${request}` };
};

/** A problem as a response. `name` becomes its type, `/problems/<name>`. */
export function problem(
  c: Context,
  name: ProblemName,
  [status, title, detail, extras = {}]: ProblemWords,
): ProblemResponse {
  c.set("refused", name);
  // extras are Problem's own members
  const body = { type: `/problems/${name}`, title, status, detail, ...occurrence(c), ...extras } as Problem;
  const headers = { "Content-Type": PROBLEM_TYPE, "Cache-Control": "no-store" };
  // Hono has no typed way to answer JSON under another media type; the body is a Problem.
  return c.body(JSON.stringify(body), status, headers) as unknown as ProblemResponse;
}

/** The response to a fair's refusal. `at` is the fair in the address, named in case it was mistyped. */
export function fairRefusal(c: Context, refused: FairRefusal, at: FairId): ProblemResponse {
  const { code } = refused;
  switch (code) {
    case "old-key":
      return forbidden(c);
    case "key-reused":
      return refusal(c, { code });
    case "no-such-fair": {
      const detail = `There is no fair "${at}". Check the link, or create the fair first.`;
      return problem(c, code, [404, "No such fair", detail]);
    }
    case "fair-exists":
      return problem(c, code, [
        409,
        "That fair exists",
        `There is a fair "${at}" already. Pick another short name.`,
      ]);
    case "fair-changed":
      return problem(c, code, [
        412,
        "The fair was changed meanwhile",
        "Somebody else changed the fair's name or hours since you began. Read them again, and make your change on top.",
      ]);
    case "last-closing-past":
      return problem(c, code, [
        409,
        "The last closing would be in the past",
        'By these hours the fair is over: stalls close, and names and numbers are erased some days after the last closing. Check the year. If the fair is over, send the same with "over": true.',
      ]);
    case "no-such-stall":
      return problem(c, code, [
        404,
        "No such stall",
        `The fair has no stall "${refused.stall}". Check the name, or add the stall first.`,
      ]);
    case "too-many-quarters":
      return problem(c, code, [
        422,
        "Too many quarters of an hour",
        "The quarters of every stall are given for about a day at a time. Ask for one day, or for one stall.",
      ]);
    case "no-more-tries":
      return problem(c, code, [
        429,
        "No more tries today",
        `The fair has sent its organiser ${refused.most} texts today. Text the number yourself, or try again tomorrow.`,
      ]);
    case "not-texted":
      return problem(c, code, [
        409,
        "That number gets no texts",
        "It said STOP, or its country is not among those that this gateway sends to.",
      ]);
    case "text-first":
      return problem(c, code, [
        409,
        "That number has not texted this fair",
        "A text goes only to a number that has texted the fair's number within the last day. Text MENU to it from that phone, then try again. If the page counts none coming in, the way in does not work yet: look at points 1 and 2 of the page.",
      ]);
    case "other-host":
      return gatewayMistakes(c, [{ pointer: "#/outbound/url", detail: elsewhere([refused.firstHost]) }]);
    default:
      return refused satisfies never;
  }
}

/** The response to a gateway mapping that has mistakes. */
export function gatewayMistakes(c: Context, errors: readonly Fault[]): ProblemResponse {
  const detail = 'Nothing was changed. Each mistake is listed in "errors".';
  return problem(c, "gateway", [422, "The gateway mapping has mistakes", detail, { errors }]);
}

/** The response to a refusal. */
export function refusal(c: Context, refused: Refusal | WriteRefusal): ProblemResponse {
  if (refused.code === "unreadable-file")
    return invalid(c, [{ pointer: "#/journal", detail: fileWords(refused.fault) }]);
  return problem(c, refused.code, refusalWords(refused));
}

export const invalid = (c: Context, errors: readonly Fault[]): ProblemResponse =>
  problem(c, "invalid-request", [
    400,
    "Your request is not valid",
    errors[0] === undefined ? "The request cannot be read." : `${errors[0].pointer}: ${errors[0].detail}`,
    { errors },
  ]);

export const unauthorised = (c: Context): ProblemResponse => {
  const response = problem(c, "key-needed", [
    401,
    "A key is needed",
    "Open the page from the link that holds your key, or send it as Authorization: Bearer.",
  ]);
  response.headers.set("WWW-Authenticate", "Bearer");
  return response;
};

export const pressOnly = (c: Context): ProblemResponse =>
  problem(c, "press-only", [
    403,
    "This link is for a press",
    "It pulls, presses, notes what is spoiled, and counts. For anything else open the crew’s link.",
  ]);

export const forbidden = (c: Context): ProblemResponse =>
  problem(c, "wrong-key", [
    403,
    "This key does not open that",
    "Check that the link is whole and that it is for this fair and stall.",
  ]);
