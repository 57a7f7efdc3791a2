/** A stall that goes to another fair, and a stall as one file. */
import { createRoute } from "@hono/zod-openapi";
import { CarriedStall, TakenIn, WholeStall } from "../../../model/accounts/whole-stall.ts";
import type { Cursor } from "../../../stall/storage/snapshot.ts";
import { crewRead, crewRoute, crewWrite, settled, stallBase } from "../../doors/crew.ts";
import { crew, keysOf } from "../../doors/guard.ts";
import { fairOf, stallOf } from "../../requests/objects.ts";
import { invalid } from "../../requests/problems.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";
import { peopleAt } from "./people-at.ts";
import { picturesIn } from "./pictures-in.ts";
import { savedFile, streamed } from "./saving.ts";

const carry = createRoute({
  method: "get",
  path: `${stallBase}/carry`,
  summary: "What goes along to another fair: menu, stock on hand, lessons, costs; never a customer",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(CarriedStall, "To be sent to the other stall's address"), ...problems },
});

const takeCarried = createRoute({
  method: "post",
  path: `${stallBase}/carry`,
  summary: "Take that into an empty stall: all of it or none",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(CarriedStall) },
  responses: { 200: json(TakenIn, "The version in which it stands"), ...problems },
});

const everything = createRoute({
  method: "get",
  path: `${stallBase}/everything`,
  summary: "Everything the stall owns as one file, names and numbers included: keep it as safe as the stall",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(WholeStall, "The journal, and the people apart"), ...problems },
});

const takeEverything = createRoute({
  method: "put",
  path: `${stallBase}/everything`,
  summary: "Take such a file into an empty stall, which then stands as the other did",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(WholeStall) },
  responses: { 200: json(TakenIn, "The version in which it stands"), ...problems },
});

const unkept = { "Cache-Control": "no-store" };

export const movingRoutes = newRouter()
  .openapi(carry, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) => stall.carry(generation));
    return answer.pass ? c.json(answer.value, 200, unkept) : answer.response;
  })
  .openapi(takeCarried, async (c) => {
    const carried = c.req.valid("json");
    const kept = await picturesIn(carried.pictures);
    if ("fault" in kept) return invalid(c, [kept.fault]);
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.takeCarried(generation, key, { ...carried, pictures: [] }, kept.pictures),
    );
    return answer.pass ? c.json(answer.value, 200) : answer.response;
  })
  .openapi(everything, async (c) => {
    const path = c.req.valid("param");
    const guard = await crew(c, path.fair, path.stall);
    if (!guard.pass) return guard.response;
    const pageAt = (from: Cursor | null) => stallOf(c, path).everything(guard.value, from);
    const first = settled(c, await pageAt(null));
    if (!first.pass) return first.response;
    const body = streamed(savedFile(c, path, first.value, pageAt));
    // A WholeStall as text.
    return c.body(body, 200, { ...unkept, "Content-Type": "application/json" }) as never;
  })
  .openapi(takeEverything, async (c) => {
    // As bytes: between objects a value of many small parts costs several times as much, and so does a text with an emoji.
    const whole = c.req.valid("json");
    const text = new TextEncoder().encode(JSON.stringify({ ...whole, pictures: [] }));
    const kept = await picturesIn(whole.pictures);
    if ("fault" in kept) return invalid(c, [kept.fault]);
    const path = c.req.valid("param");
    const people = await peopleAt(whole, path, (of) => keysOf(c).opaqueId(of));
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.takeEverything(generation, key, text, people.numbers, kept.pictures),
    );
    if (!answer.pass) return answer.response;
    const { value } = answer;
    // If it breaks off, the repeat of the write does it again.
    if (!("fault" in value)) {
      for (const sender of people.stopped) await fairOf(c, path.fair).setStopped(sender, true);
      for (const list of whole.stops ?? []) await fairOf(c, path.fair).takeStops(path.stall, list);
    }
    return "fault" in value
      ? invalid(c, [{ pointer: "#/journal", detail: value.fault }])
      : c.json(value, 200);
  });
