import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import type { Closeout } from "../../src/model/accounts/closeout.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { FairView } from "../../src/model/fair/fair.ts";
import type { Throughput } from "../../src/model/fair/throughput.ts";
import type { MenuView } from "../../src/model/menu/menu-view.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { at, example, type Running, shared } from "./running.ts";

let running: Running;
let fair: LoadedFair;
let organiser: Client;
let crew: Client;

beforeAll(async () => {
  running = await shared();
  fair = await example(running, "hours");
  organiser = running.anyone.withKey(fair.key);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
});

const path = "/v1/fairs/hours";
/** An opening, in minutes from now. */
const opening = (from: number, to: number) => ({
  opens: new Date(Date.now() + from * MINUTE).toISOString(),
  closes: new Date(Date.now() + to * MINUTE).toISOString(),
});
const order = () =>
  running.anyone.post<Problem>(`${at(fair)}/orders`, {
    lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }],
  });
const menu = async () => (await running.anyone.get<MenuView>(`${at(fair)}/menu`)).body;

describe("a fair's name and hours", () => {
  it("are read by anybody, with a tag, and changed by the organiser alone", async () => {
    const { body, headers, status } = await running.anyone.get<FairView>(path);
    expect([status, body.fair, headers.get("etag")]).toEqual([200, "hours", '"f0"']);
    const again = { "if-none-match": '"f0"' };
    expect((await running.anyone.get(path, again)).status).toBe(304);
    expect((await running.anyone.get("/v1/fairs/nowhere")).status).toBe(404);
    const change = { name: "Hours Fair", openings: [opening(-60, 300)] };
    expect((await crew.put(path, change)).status).toBe(403);
    expect((await running.owner.put(path, change)).status).toBe(403);
    const backwards = { name: "Hours Fair", openings: [opening(60, 30)] };
    const refused = await organiser.put<Problem>(path, backwards);
    expect([refused.status, refused.body.errors?.[0]?.pointer]).toEqual([400, "#/openings/0"]);
    expect((await running.anyone.get<FairView>(path)).body).toEqual(body);
  });

  it("reach every stall: it closes, opens and calls last orders by them, and its day is the fair's", async () => {
    expect((await order()).status).toBe(201);
    const over = [opening(-600, -1)];
    // A mistyped year looks the same, so the request must say that the fair is over; a new name alone need not.
    const typo = await organiser.put<Problem>(path, { name: "Hours Fair", openings: over });
    expect([typo.status, typo.body.type]).toEqual([409, "/problems/last-closing-past"]);
    expect(typo.body.detail).toContain('"over": true');
    expect((await menu()).open).toBe(true);
    expect((await organiser.put(path, { name: "Hours Fair", openings: over, over: true })).status).toBe(200);
    expect((await organiser.put(path, { name: "Hours Fair", openings: over })).status).toBe(200);
    for (const index of [0, 1])
      expect((await running.anyone.get<MenuView>(`${at(fair, index)}/menu`)).body.open).toBe(false);
    expect((await order()).body.type).toBe("/problems/not-open");

    const short = [...over, opening(0, 20)];
    expect((await organiser.put(path, { name: "Hours Fair", openings: short })).status).toBe(200);
    expect((await order()).status).toBe(201);
    expect(await menu()).toMatchObject({ open: true, lastOrders: true });
    const longer = [...over, opening(0, 600)];
    const changed = await organiser.put<FairView>(path, { name: "Longer Fair", openings: longer });
    expect(changed.body).toMatchObject({ name: "Longer Fair", openings: longer });
    expect(await menu()).toMatchObject({ open: true, lastOrders: false });
    const pace = await organiser.get<Throughput>(`${path}/throughput`);
    expect(pace.body.fair).toBe("Longer Fair");

    // The evening began yesterday: work after midnight counts as yesterday's.
    const zone = (await running.anyone.get<FairView>(path)).body.timeZone;
    const dayOf = (from: number) =>
      new Intl.DateTimeFormat("en-CA", { timeZone: zone }).format(Date.now() + from * MINUTE);
    const clock = new Intl.DateTimeFormat("en-GB", { timeZone: zone, hour: "2-digit", minute: "2-digit" });
    const [hours = 0, minutes = 0] = clock.format(Date.now()).split(":").map(Number);
    const began = -(hours * 60 + minutes + 60);
    const evening = [opening(began, 60)];
    expect((await organiser.put(path, { name: "Longer Fair", openings: evening })).status).toBe(200);
    expect((await order()).status).toBe(201);
    const { days } = (await crew.get<Closeout>(`${at(fair)}/closeout`)).body;
    expect(days.map(({ day }) => day)).toContain(dayOf(began));
  });

  it("are changed once however often the request is sent, and never over another person's change", async () => {
    const tag = (await running.anyone.get(path)).headers.get("etag") ?? "";
    const mine = { name: "Mine", openings: [opening(-60, 300)] };
    const headers = { "if-match": tag, "idempotency-key": "my-hours-once" };
    const first = await organiser.put<FairView>(path, mine, headers);
    const second = await organiser.put<FairView>(path, mine, headers);
    expect([first.status, second.status, second.body.name]).toEqual([200, 200, "Mine"]);
    expect(second.headers.get("etag")).toBe(first.headers.get("etag"));
    const theirs = { ...mine, name: "Theirs" };
    expect((await organiser.put(path, theirs, headers)).status).toBe(422);
    const late = await organiser.put<Problem>(path, theirs, { "if-match": tag });
    expect([late.status, late.body.type]).toEqual([412, "/problems/fair-changed"]);
    expect((await organiser.put(path, theirs, { "if-match": `W/${tag}` })).status).toBe(412);
    expect((await running.anyone.get<FairView>(path)).body.name).toBe("Mine");
  });
});
