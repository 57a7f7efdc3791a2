/** The organiser's routes for announcements and the stop of all orders. */
import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { nanoid } from "nanoid";
import type { FairId } from "../../../model/basics/ids.ts";
import { SetStallContact, StallContacts } from "../../../model/fair/contacts.ts";
import type { FairAnswer } from "../../../model/fair/fair-refusal.ts";
import {
  Announce,
  AnnouncementId,
  OrganiserNews,
  SentAnnouncement,
  SetOrderStop,
} from "../../../model/fair/organising.ts";
import { onlyFor } from "../../doors/doors.ts";
import { generationOf, writeKey } from "../../doors/guard.ts";
import type { App } from "../../requests/env.ts";
import { fairOf } from "../../requests/objects.ts";
import { fairRefusal, type ProblemResponse } from "../../requests/problems.ts";
import { body, fairPath, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const shared = { tags: ["organiser"], ...onlyFor("organiser") };

const read = createRoute({
  method: "get",
  path: "/v1/fairs/{fair}/announcements",
  summary: "The organiser's announcements, who has read them, and whether all orders are stopped",
  ...shared,
  request: { params: fairPath },
  responses: { 200: json(OrganiserNews, "As it is now"), ...problems },
});

const announce = createRoute({
  method: "post",
  path: "/v1/fairs/{fair}/announcements",
  summary: "Say something to the crews of all stalls or of some; never to a customer",
  ...shared,
  request: { headers: idempotency, params: fairPath, body: body(Announce) },
  responses: { 201: json(SentAnnouncement, "On its way"), ...problems },
});

const takeBack = createRoute({
  method: "delete",
  path: "/v1/fairs/{fair}/announcements/{announcement}",
  summary: "Withdraw an announcement: crews that have not read it no longer see it",
  ...shared,
  request: { headers: idempotency, params: fairPath.extend({ announcement: AnnouncementId }) },
  responses: { 200: json(OrganiserNews, "As it is now"), ...problems },
});

const stop = createRoute({
  method: "put",
  path: "/v1/fairs/{fair}/order-stop",
  summary: "Stop all orders of the fair, on the web, by text and at the counter; null lets the stalls go on",
  ...shared,
  request: { headers: idempotency, params: fairPath, body: body(SetOrderStop) },
  responses: { 200: json(OrganiserNews, "As it is now; the stalls follow within seconds"), ...problems },
});

const contacts = createRoute({
  method: "get",
  path: "/v1/fairs/{fair}/contacts",
  summary: "Whom to call at each stall",
  ...shared,
  request: { params: fairPath },
  responses: { 200: json(StallContacts, "Those that are kept"), ...problems },
});

const setContact = createRoute({
  method: "put",
  path: "/v1/fairs/{fair}/stalls/{stall}/contact",
  summary: "Keep whom to call at a stall, until the fair's people are erased; null forgets it",
  ...shared,
  request: { headers: idempotency, params: stallPath, body: body(SetStallContact) },
  responses: { 200: json(StallContacts, "Those that are kept"), ...problems },
});

const unkept = { "Cache-Control": "no-store" };

/**
 * Does a write and informs the stalls before it answers; beyond what one request may call, the fair's alarm goes on.
 */
async function said<T>(
  c: Context<App>,
  fair: FairId,
  work: () => Promise<FairAnswer<T>>,
): Promise<{ readonly value: T } | { readonly response: ProblemResponse }> {
  const answer = await work();
  if (!answer.ok) return { response: fairRefusal(c, answer.refusal, fair) };
  await fairOf(c, fair).tellStalls();
  return { value: answer.value };
}

export const organiserWordRoutes = newRouter()
  .openapi(read, async (c) => {
    const { fair } = c.req.valid("param");
    const answer = await fairOf(c, fair).organiserNews(generationOf(c));
    return answer.ok ? c.json(answer.value, 200, unkept) : fairRefusal(c, answer.refusal, fair);
  })
  .openapi(announce, async (c) => {
    const { fair } = c.req.valid("param");
    const key = await writeKey(c, "organiser");
    if (!key.ok) return key.refusal;
    const id = AnnouncementId.parse(nanoid(16));
    const request = c.req.valid("json");
    const done = await said(c, fair, () => fairOf(c, fair).announce(generationOf(c), key.value, id, request));
    return "response" in done ? done.response : c.json(done.value, 201);
  })
  .openapi(takeBack, async (c) => {
    const { fair, announcement } = c.req.valid("param");
    const key = await writeKey(c, "organiser");
    if (!key.ok) return key.refusal;
    const done = await said(c, fair, () =>
      fairOf(c, fair).takeBackAnnouncement(generationOf(c), announcement),
    );
    return "response" in done ? done.response : c.json(done.value, 200);
  })
  .openapi(stop, async (c) => {
    const { fair } = c.req.valid("param");
    const key = await writeKey(c, "organiser");
    if (!key.ok) return key.refusal;
    const { stop } = c.req.valid("json");
    const done = await said(c, fair, () => fairOf(c, fair).setOrderStop(generationOf(c), stop));
    return "response" in done ? done.response : c.json(done.value, 200);
  })
  .openapi(contacts, async (c) => {
    const { fair } = c.req.valid("param");
    const answer = await fairOf(c, fair).contacts(generationOf(c));
    return answer.ok ? c.json(answer.value, 200, unkept) : fairRefusal(c, answer.refusal, fair);
  })
  .openapi(setContact, async (c) => {
    const { fair, stall } = c.req.valid("param");
    const key = await writeKey(c, "organiser");
    if (!key.ok) return key.refusal;
    const { contact } = c.req.valid("json");
    const answer = await fairOf(c, fair).setContact(generationOf(c), stall, contact);
    return answer.ok ? c.json(answer.value, 200) : fairRefusal(c, answer.refusal, fair);
  });
