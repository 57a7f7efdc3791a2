/** The organiser speaks to the stalls over the API: announcements, the stop of all orders, and whom to call. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { StallContacts } from "../../src/model/fair/contacts.ts";
import type { OrganiserNews, SentAnnouncement } from "../../src/model/fair/organising.ts";
import type { Throughput } from "../../src/model/fair/throughput.ts";
import type { MenuView } from "../../src/model/menu/menu-view.ts";
import type { ChatReply } from "../../src/model/orders/chat.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { at, example, type Running, shared } from "./running.ts";

const LINES = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];

let running: Running;
let organiser: Client;
let crew: Client;
let base: string;
let fair: string;

beforeAll(async () => {
  running = await shared();
  const loaded = await example(running);
  fair = `/v1/fairs/${loaded.fair}`;
  base = at(loaded);
  organiser = running.anyone.withKey(loaded.key);
  crew = running.anyone.withKey(loaded.stalls[0]?.key ?? "");
  expect((await organiser.put(`${fair}/stalls/empty`, { name: "Empty" })).status).toBeLessThan(300);
});

const news = async (): Promise<OrganiserNews> =>
  (await organiser.get<OrganiserNews>(`${fair}/announcements`)).body;
const queue = async (): Promise<QueueView> => (await crew.get<QueueView>(`${base}/queue`)).body;
const stop = (order: object | null) => organiser.put<OrganiserNews>(`${fair}/order-stop`, { stop: order });

describe("an announcement", () => {
  it("is on the crew's screens, the organiser sees who has read it, and it is gone once it is read", async () => {
    const text = "Rain from four: cover your presses.";
    const said = await organiser.post<SentAnnouncement>(`${fair}/announcements`, { text });
    expect([said.status, said.body.stalls, said.body.readBy]).toEqual([201, null, []]);
    const [shown] = (await queue()).announcements ?? [];
    expect(shown).toMatchObject({ id: said.body.id, text });
    const before = (await news()).announcements[0];
    expect(before?.unreadBy).toEqual(expect.arrayContaining(["tern", "empty"]));
    for (const _ of [1, 2])
      expect((await crew.post(`${base}/announcements/${said.body.id}/read`)).status).toBe(200);
    expect((await queue()).announcements).toEqual([]);
    await expect
      .poll(async () => (await news()).announcements[0]?.readBy.map(({ stall }) => stall))
      .toEqual(["tern"]);
  });

  it("goes to some stalls only if it says so, and to no stall that the fair does not have", async () => {
    const text = "Your neighbour needs a fuse.";
    const to = await organiser.post<SentAnnouncement>(`${fair}/announcements`, { text, stalls: ["empty"] });
    expect(to.body.unreadBy).toEqual(["empty"]);
    expect((await queue()).announcements).toEqual([]);
    const nobody = await organiser.post<Problem>(`${fair}/announcements`, { text, stalls: ["nobody"] });
    expect([nobody.status, nobody.body.type]).toEqual([404, "/problems/no-such-stall"]);
  });

  it("is made once however often it is sent, and is taken back where it is not read yet", async () => {
    const once = { "idempotency-key": "announce-this-once" };
    const sent = () =>
      organiser.post<SentAnnouncement>(`${fair}/announcements`, { text: "Lost: one blue umbrella." }, once);
    const [first, second] = [await sent(), await sent()];
    expect(second.body.id).toBe(first.body.id);
    expect((await queue()).announcements?.map(({ id }) => id)).toEqual([first.body.id]);
    const back = await organiser.delete<OrganiserNews>(`${fair}/announcements/${first.body.id}`);
    expect(back.status).toBe(200);
    expect((await queue()).announcements).toEqual([]);
    expect((await news()).announcements.map(({ id }) => id)).not.toContain(first.body.id);
  });

  it("is no crew's and no customer's to make", async () => {
    for (const who of [crew, running.anyone]) {
      expect(
        (await who.post(`${fair}/announcements`, { text: "Free shirts" })).status,
      ).toBeGreaterThanOrEqual(401);
      expect((await who.put(`${fair}/order-stop`, { stop: null })).status).toBeGreaterThanOrEqual(401);
      expect((await who.get(`${fair}/contacts`)).status).toBeGreaterThanOrEqual(401);
    }
  });
});

describe("Stop all orders", () => {
  it("ends orders on the web, by conversation and at the counter until Go on, and the crew cannot override it", async () => {
    const said = { id: "stop-message-000000000001", text: "1 navy L" };
    const { body: asked } = await running.anyone.post<ChatReply>(`${base}/chat`, said);
    const customer = running.anyone.withKey(asked.customer);
    const stopped = await stop({ reason: "storm", pressing: false });
    expect([stopped.status, stopped.body.stop?.reason, stopped.body.untold]).toEqual([
      200,
      "storm",
      expect.any(Array),
    ]);

    expect((await crew.post(`${base}/resume`)).status).toBe(200);
    for (const who of [running.anyone, crew, customer]) {
      const answer = await who.post<Problem>(`${base}/orders`, { lines: LINES });
      expect([answer.status, answer.body.type]).toEqual([409, "/problems/fair-stopped"]);
      expect(answer.body.detail).toContain("storm");
    }
    const yes = { id: "stop-message-000000000002", text: "yes" };
    const reply = (await customer.post<ChatReply>(`${base}/chat`, yes)).body;
    expect(reply.order).toBeUndefined();
    expect(reply.replies.map(({ text }) => text).join()).toContain(
      "The fair has stopped all orders for now: storm.",
    );
    expect((await running.anyone.get<MenuView>(`${base}/menu`)).body.paused).toBe(true);
    expect((await queue()).fairStop).toMatchObject({ reason: "storm", pressing: false });

    expect((await stop(null)).body.stop).toBeNull();
    expect((await queue()).fairStop).toBeNull();
    expect((await crew.post(`${base}/orders`, { lines: LINES })).status).toBe(201);
    expect((await crew.post(`${base}/presses/A/pull`)).status).toBe(200);
  });

  it("holds for a stall that is added meanwhile", async () => {
    await stop({ reason: "power", pressing: true });
    await organiser.put(`${fair}/stalls/late`, { name: "Late" });
    expect((await news()).stop).toMatchObject({ reason: "power", pressing: true });
    expect((await crew.post(`${base}/presses/B/pull`)).status).toBe(409);
    await stop(null);
  });
});

describe("what the organiser knows of a stall", () => {
  it("says apart which stalls are not set up yet", async () => {
    await expect
      .poll(async () => {
        const { body } = await organiser.get<Throughput>(`${fair}/throughput`);
        return body.stalls.filter(({ stall }) => stall !== "late").map(({ stall, setUp }) => [stall, setUp]);
      })
      .toEqual(
        expect.arrayContaining([
          ["tern", true],
          ["empty", false],
        ]),
      );
  });

  it("keeps whom to call, and forgets it when asked", async () => {
    const contact = { name: "Wren", phone: "+12125550147", note: "Pitch 4" };
    const kept = await organiser.put<StallContacts>(`${fair}/stalls/empty/contact`, { contact });
    expect(kept.body.contacts).toEqual([{ stall: "empty", ...contact }]);
    expect((await organiser.get<StallContacts>(`${fair}/contacts`)).body).toEqual(kept.body);
    expect((await organiser.put(`${fair}/stalls/nobody/contact`, { contact })).status).toBe(404);
    const gone = await organiser.put<StallContacts>(`${fair}/stalls/empty/contact`, { contact: null });
    expect(gone.body.contacts).toEqual([]);
  });
});
