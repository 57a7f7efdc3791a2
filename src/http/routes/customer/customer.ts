/** The customer's routes: the menu, ordering, the conversation, the board. */

import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { nanoid } from "nanoid";
import { z } from "zod";
import { CustomerId, type FairId, type StallId } from "../../../model/basics/ids.ts";
import { ok, refused } from "../../../model/basics/result.ts";
import type { Language } from "../../../model/basics/words.ts";
import { MenuView } from "../../../model/menu/menu-view.ts";
import { ChatHistory, ChatReply, ChatTurn, PeopleKept } from "../../../model/orders/chat.ts";
import {
  type OrderStanding,
  OrderView,
  type PhoneNumber,
  PickupNumber,
  PlacedOrder,
} from "../../../model/orders/order.ts";
import { PlaceOrder } from "../../../model/orders/place-order.ts";
import { BoardView } from "../../../model/orders/queue.ts";
import type { PlaceRequest } from "../../../stall/calls/customer.ts";
import type { LatestOrder } from "../../../stall/calls/replies.ts";
import { customerAt } from "../../../texting/keyed-hash.ts";
import { readSender } from "../../../texting/senders.ts";
import { settled, stallBase } from "../../doors/crew.ts";
import { forAll, forAllAnd, onlyFor } from "../../doors/doors.ts";
import { callerOf, type Guarded, keysOf, writeKey } from "../../doors/guard.ts";
import { tooManyNewcomers } from "../../doors/limits.ts";
import { networkOf } from "../../doors/networks.ts";
import { gatewayOf } from "../../doors/web-hook.ts";
import type { Caller } from "../../requests/caller.ts";
import type { App } from "../../requests/env.ts";
import { stallOf, versionHeaders, versionsOf } from "../../requests/objects.ts";
import { paymentFrom } from "../../requests/payment-in.ts";
import { forbidden, invalid, unauthorised } from "../../requests/problems.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

type Path = { readonly fair: FairId; readonly stall: StallId };

const onOrder = z.strictObject({ ...stallPath.shape, number: z.coerce.number().pipe(PickupNumber) });
const tags = ["customer"];
const Erased = z.strictObject({ erased: z.literal(true) }).meta({ id: "Erased" });

const menu = createRoute({
  method: "get",
  path: `${stallBase}/menu`,
  summary: "What can be had right now",
  tags,
  ...forAll,
  request: { params: stallPath },
  responses: { 200: json(MenuView, "Now"), ...problems },
});

const place = createRoute({
  method: "post",
  path: `${stallBase}/orders`,
  summary: "Place a whole order; with the crew's key it is a walk-up at the counter",
  tags,
  ...forAllAnd("crew", "customer"),
  request: { headers: idempotency, params: stallPath, body: body(PlaceOrder) },
  responses: { 201: json(PlacedOrder, "It stands"), ...problems },
});

const order = createRoute({
  method: "get",
  path: `${stallBase}/orders/{number}`,
  summary: "An order, for the holder of its claim",
  tags,
  ...onlyFor("claim"),
  request: { params: onOrder },
  responses: { 200: json(OrderView, "Now"), ...problems },
});

const chat = createRoute({
  method: "post",
  path: `${stallBase}/chat`,
  summary: "One message of a conversation; the first one makes a customer and brings its token",
  tags,
  ...forAllAnd("customer"),
  request: { params: stallPath, body: body(ChatTurn) },
  responses: { 200: json(ChatReply, "The stall's replies"), ...problems },
});

const history = createRoute({
  method: "get",
  path: `${stallBase}/chat`,
  summary: "The messages after a given one",
  tags,
  ...onlyFor("customer"),
  request: { params: stallPath, query: z.strictObject({ after: z.coerce.number().int().min(0).default(0) }) },
  responses: { 200: json(ChatHistory, "Newer messages, and the latest order"), ...problems },
});

const erased = createRoute({
  method: "post",
  path: `${stallBase}/chat/erased`,
  summary: "Erases the customer's conversation, name and number at once; open orders stay without them",
  tags,
  ...onlyFor("customer"),
  request: { params: stallPath },
  responses: { 200: json(Erased, "They are gone"), ...problems },
});

const people = createRoute({
  method: "get",
  path: `${stallBase}/people-kept`,
  summary: "Who keeps what people say, and until when",
  tags,
  ...forAll,
  request: { params: stallPath },
  responses: { 200: json(PeopleKept, "Now"), ...problems },
});

const board = createRoute({
  method: "get",
  path: `${stallBase}/board`,
  summary: "Pickup numbers only; answers 304 while nothing changed",
  tags,
  ...forAll,
  request: { params: stallPath },
  responses: { 200: json(BoardView, "Now"), 304: { description: "Nothing changed" }, ...problems },
});

/** The order a customer is shown, with the claim that opens it. */
async function withClaim(
  c: Context<App>,
  { fair, stall }: Path,
  standing: LatestOrder | null,
): Promise<{ order?: OrderStanding }> {
  if (standing === null) return {};
  return { order: { ...standing, claim: await keysOf(c).claim(fair, stall, standing.number) } };
}

/** The language of the browser, if the conversation speaks it. */
function languageOf(c: Context<App>): { language?: Language } {
  const wanted = (c.req.header("Accept-Language") ?? "")
    .split(",")
    .map((part) => part.trim().slice(0, 2).toLowerCase());
  const language = wanted.find((tag) => tag === "en" || tag === "es");
  return language === undefined ? {} : { language };
}

/** The number in an order, read as the fair's own country writes it. */
async function numberIn(
  c: Context<App>,
  { fair, stall }: Path,
  given: string | undefined,
): Promise<Guarded<{ readonly phone: PhoneNumber; readonly number: CustomerId } | null>> {
  if (given === undefined) return ok(null);
  const { mapping } = await gatewayOf(c, fair);
  const read = readSender(given, mapping.country);
  if (read.type !== "phone") {
    const detail = "must be a telephone number, with its country code where it is from another country";
    return refused(invalid(c, [{ pointer: "#/phone", detail }]));
  }
  const { phone } = read;
  const number = await keysOf(c).opaqueId(customerAt(fair, stall, phone));
  return ok({ phone, number });
}

type Given = { readonly phone: PhoneNumber; readonly number: CustomerId } | null;

/** The keyed hash of the address a request comes from, as one stall counts it. */
const addressOf = (c: Context<App>, { fair, stall }: Path): Promise<CustomerId> =>
  keysOf(c).opaqueId(`address/${fair}/${stall}/${networkOf(c.req.header("CF-Connecting-IP"))}`);

/** The members of an order that only the crew may send. */
function asCounter({ paper, takenAt, block, late, paid }: PlaceOrder) {
  return {
    ...(paper === undefined ? {} : { paper: { number: paper.number, takenAt: Date.parse(paper.takenAt) } }),
    ...(takenAt === undefined ? {} : { takenAt: Date.parse(takenAt) }),
    ...(block === undefined || paper !== undefined ? {} : { block }),
    ...(late === undefined ? {} : { late }),
    ...(paid === undefined ? {} : { paid: paymentFrom(paid) }),
  };
}

function placeRequest(
  who: Caller,
  request: PlaceOrder,
  given: Given,
  fresh: CustomerId,
  address: string,
): PlaceRequest {
  const { lines, paper } = request;
  const isCrew = who.role === "crew";
  const takenBy = !isCrew ? "web" : paper === undefined ? "counter" : "paper";
  return {
    command: {
      type: "place",
      customer: who.role === "customer" ? who.customer : fresh,
      takenBy,
      lines,
      asks: lines.map((_, index) => index),
      ...(isCrew ? asCounter(request) : {}),
    },
    ...(request.paid?.by === undefined ? {} : { paidTo: request.paid.by }),
    name: request.name ?? null,
    phone: given?.phone ?? null,
    number: given?.number ?? null,
    address: isCrew ? null : address,
    isUnknown: who.role === "stranger",
    generation: isCrew ? who.generation : null,
  };
}

export const customerRoutes = newRouter()
  .openapi(menu, async (c) => {
    const answer = settled(c, await stallOf(c, c.req.valid("param")).menu());
    return answer.ok ? c.json(answer.value, 200, { "Cache-Control": "no-store" }) : answer.refusal;
  })
  .openapi(place, async (c) => {
    const path = c.req.valid("param");
    const who = callerOf(c);
    const request = c.req.valid("json");
    const { paper, takenAt, block, late, paid } = request;
    const forCrew = [
      ...[paper, takenAt, block, late, paid],
      ...request.lines.flatMap(({ wishes, note, rack }) => [wishes, note, rack]),
    ].some((field) => field !== undefined);
    if (forCrew && who.role !== "crew") return forbidden(c);
    const role = who.role === "customer" ? `customer ${who.customer}` : who.role;
    const key = await writeKey(c, role);
    if (!key.ok) return key.refusal;
    const given = await numberIn(c, path, request.phone);
    if (!given.ok) return given.refusal;
    const fresh = CustomerId.parse(nanoid(22));
    const answer = settled(
      c,
      await stallOf(c, path).place(
        key.value,
        placeRequest(who, request, given.value, fresh, await addressOf(c, path)),
      ),
    );
    if (!answer.ok) return answer.refusal;
    const { customer: _customer, ...placed } = answer.value;
    const claim = await keysOf(c).claim(path.fair, path.stall, placed.number);
    return c.json({ ...placed, claim }, 201);
  })
  .openapi(order, async (c) => {
    const { number, ...path } = c.req.valid("param");
    const answer = settled(c, await stallOf(c, path).order(number));
    return answer.ok ? c.json(answer.value, 200, { "Cache-Control": "no-store" }) : answer.refusal;
  })
  .openapi(chat, async (c) => {
    const path = c.req.valid("param");
    const who = callerOf(c);
    if (who.role === "crew") return forbidden(c);
    const over = who.role === "stranger" ? tooManyNewcomers(c, `${path.fair}/${path.stall}`) : null;
    if (over !== null) return over;
    const { id, text } = c.req.valid("json");
    const keys = keysOf(c);
    // A first message makes the customer; derived from its id, so that its repeat is the same customer.
    const customer =
      who.role === "customer" ? who.customer : await keys.opaqueId(`first/${path.fair}/${path.stall}/${id}`);
    const spoken = { id, text, customer, phone: null, address: await addressOf(c, path), ...languageOf(c) };
    const answer = settled(c, await stallOf(c, path).chat(spoken));
    if (!answer.ok) return answer.refusal;
    const replies = answer.value.replies.map((reply, index) => ({ id: `${id}-${index + 1}`, text: reply }));
    const token = await keys.customer(path.fair, path.stall, customer);
    const { order, shows } = answer.value;
    const body = { customer: token, replies, ...(await withClaim(c, path, order)) };
    return c.json(shows === undefined ? body : { ...body, shows }, 200);
  })
  .openapi(history, async (c) => {
    const path = c.req.valid("param");
    const who = callerOf(c);
    if (who.role !== "customer") return unauthorised(c);
    const answer = settled(c, await stallOf(c, path).history(who.customer, c.req.valid("query").after));
    if (!answer.ok) return answer.refusal;
    const { order: standing, ...page } = answer.value;
    return c.json({ ...page, ...(await withClaim(c, path, standing)) }, 200, { "Cache-Control": "no-store" });
  })
  .openapi(erased, async (c) => {
    const who = callerOf(c);
    if (who.role !== "customer") return unauthorised(c);
    const answer = settled(c, await stallOf(c, c.req.valid("param")).eraseCustomer(who.customer));
    return answer.ok ? c.json({ erased: true } as const, 200) : answer.refusal;
  })
  .openapi(people, async (c) => {
    const answer = settled(c, await stallOf(c, c.req.valid("param")).peopleKept());
    return answer.ok ? c.json(answer.value, 200, { "Cache-Control": "no-store" }) : answer.refusal;
  })
  .openapi(board, async (c) => {
    const answer = settled(c, await stallOf(c, c.req.valid("param")).board(versionsOf(c)));
    if (!answer.ok) return answer.refusal;
    const { version, view } = answer.value;
    return view === null
      ? c.body(null, 304, versionHeaders(version))
      : c.json(view, 200, versionHeaders(version));
  });
