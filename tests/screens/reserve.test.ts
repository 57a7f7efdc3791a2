/** The press screen and its reserve: during silence, after silence, and from an earlier page's storage. */

import { describe, expect, it } from "vitest";
import type { JobView, QueueView } from "../../src/model/orders/queue.ts";
import { presentTaps } from "../../src/screens/client/crew/earlier-taps.ts";
import type { KeptTaps, Tap } from "../../src/screens/client/crew/taps.ts";
import { presentView } from "../../src/screens/client/press/earlier-views.ts";
import { letGoNews } from "../../src/screens/client/press/let-go.ts";
import { nextTake } from "../../src/screens/client/press/side/reserve.ts";
import { silence } from "../../src/screens/client/press/silence.ts";
import { MINUTE } from "../../src/time/instants.ts";

type Press = QueueView["presses"][number];
const pressWith = (some: object): Press =>
  ({ press: "A", reserve: [], askedBack: [], letGo: null, ...some }) as unknown as Press; // the rest plays no part here

describe("a tablet without signal", () => {
  it("takes from its reserve for 20 minutes after it asked the stall for the last time that was answered", () => {
    let [set, ticked] = [1000 * MINUTE, 0];
    const silent = silence(
      () => set,
      () => ticked,
    );
    expect(silent.mayTake()).toBe(false);
    const asked = silent.asking();
    set += MINUTE;
    ticked += MINUTE;
    silent.heard(asked);
    // A question that is never answered does not count.
    silent.asking();
    set += 19 * MINUTE - 1;
    ticked += 19 * MINUTE - 1;
    expect(silent.mayTake()).toBe(true);
    set += 1;
    ticked += 1;
    expect(silent.mayTake()).toBe(false);
  });
  it("believes the longer silence if its clock is set back, or if one of its clocks stood still in its sleep", () => {
    for (const [clock, ticks] of [
      [-60, 21],
      [21, 1],
    ] as const) {
      let [set, ticked] = [1000 * MINUTE, 0];
      const silent = silence(
        () => set,
        () => ticked,
      );
      silent.heard(silent.asking());
      set += clock * MINUTE;
      ticked += ticks * MINUTE;
      expect(silent.mayTake()).toBe(false);
    }
  });
  it("goes on after a reload for what is left of the 20 minutes, and not if its clock was set back", () => {
    const after = (minutes: number): boolean => {
      const silent = silence(
        () => 1000 * MINUTE,
        () => 5,
      );
      silent.heardBefore((1000 - minutes) * MINUTE);
      return silent.mayTake();
    };
    expect([19, 20, -5].map(after)).toEqual([true, false, false]);
  });
  it("says what its button does: the next by the stall, the first of the reserve, or nothing", () => {
    const press = pressWith({ reserve: [{ job: "102-1" }] });
    const [first] = press.reserve;
    expect(nextTake(press, "there", null)).toEqual({ label: "Pull next garment", can: true, job: null });
    expect(nextTake(press, "lost", null)).toEqual({ label: "Take 102-1, reserved", can: true, job: first });
    expect(nextTake(press, "ended", null).can).toBe(false);
    expect(nextTake(pressWith({}), "lost", null).can).toBe(false);
    const chosen = { job: "103-1" } as unknown as JobView; // the rest plays no part here
    expect(nextTake(press, "there", chosen)).toEqual({ label: "Pull 103-1", can: true, job: chosen });
    expect(nextTake(press, "lost", chosen).job).toBe(chosen);
    expect(nextTake(press, "ended", chosen).job).toBeNull();
  });
});

describe("a tablet that was silent for too long", () => {
  const job = (id: string, stage: string | null, press: string | null) => ({ job: id, stage, press });
  it("is told which of its garments are at another press, over, or back in the queue", () => {
    const jobs = [
      job("102-1", "pressing", "B"),
      job("103-1", "reserved", "B"),
      job("104-1", "waiting", null),
      job("105-1", null, null),
      job("106-1", "pressed", "A"),
    ];
    const news = letGoNews(pressWith({ letGo: { at: "x", silentSince: "x", jobs } }));
    expect(news).toContain("At press B now: 102-1, 103-1.");
    expect(news).toContain("Back in the queue: 104-1.");
    expect(news).toContain("Order ended: 105-1.");
    expect(news).not.toContain("106-1");
  });
  it("is told nothing if all of them were done here", () => {
    expect(letGoNews(pressWith({}))).toBeNull();
    const jobs = [job("102-1", "pressed", "A")];
    expect(letGoNews(pressWith({ letGo: { at: "x", silentSince: "x", jobs } }))).toBeNull();
  });
});

describe("what an earlier page kept", () => {
  const onOrder = (change: object) => ({ type: "order", number: 101, change });
  it("sends its taps under the present names, others as they are", async () => {
    const tap = (path: string, body: object): Tap<unknown> => ({
      act: { type: "aside", press: "A", jobs: 3 },
      path,
      body,
      says: "said",
      once: path,
      page: "press",
      at: 1,
      firstSent: null,
    });
    const pulled = { ...tap("/presses/A/pull", {}), act: { type: "pull", press: "A", job: null } };
    let book: KeptTaps<unknown> = {
      taps: [tap("/presses/A/aside", { jobs: 3 }), tap("/presses/B/aside", { jobs: 0 }), pulled],
      news: [],
    };
    const store = presentTaps<unknown>({
      read: async () => book,
      change: async (to) => {
        book = to(book);
        return book;
      },
    });
    const [on, off, same] = (await store.read()).taps;
    expect(on).toMatchObject({
      act: { type: "reserve", press: "A", on: true },
      path: "/presses/A/reserve",
      body: { on: true },
      once: "/presses/A/aside",
    });
    expect(off).toMatchObject({ path: "/presses/B/reserve", body: { on: false } });
    expect(same).toEqual(pulled);
    const changed = await store.change((before) => before);
    expect(changed.taps.map(({ path }) => path)).toEqual([
      "/presses/A/reserve",
      "/presses/B/reserve",
      "/presses/A/pull",
    ]);
  });
  const RENAMED: readonly (readonly [earlier: object, present: object])[] = [
    [
      { type: "undo", job: "101-1" },
      { type: "undo-pressed", job: "101-1" },
    ],
    [
      { type: "unspoiled", job: "101-1" },
      { type: "undo-spoiled", job: "101-1" },
    ],
    [onOrder({ type: "unpaid" }), onOrder({ type: "undo-paid" })],
    [onOrder({ type: "kept" }), onOrder({ type: "kept-unpaid" })],
    [onOrder({ type: "ended", as: "dropped" }), onOrder({ type: "closed", as: "dropped" })],
    [onOrder({ type: "reopened", was: "dropped" }), onOrder({ type: "undo-closed", was: "dropped" })],
    [onOrder({ type: "given-back", undo: true }), onOrder({ type: "undo-given-back" })],
  ];
  it.each(RENAMED)(
    "reads %j as %j, sent to the same address, also in a message",
    async (earlier, present) => {
      const tap = {
        act: earlier,
        path: "/x",
        body: {},
        says: "",
        once: "1",
        page: "",
        at: 1,
        firstSent: null,
      };
      const book = { taps: [tap], news: [{ id: "2", text: "too old", tap }] };
      const store = presentTaps<unknown>({ read: async () => book, change: async () => book });
      const read = await store.read();
      expect(read.taps).toEqual([{ ...tap, act: present }]);
      expect(read.news).toEqual([{ ...book.news[0], tap: { ...tap, act: present } }]);
    },
  );
  it("shows its view under the present names", () => {
    const kept = {
      next: [{ job: "105-1" }],
      presses: [
        {
          press: "A",
          job: { job: "101-1" },
          aside: [{ job: "102-1", stage: "aside" }],
          asideUntil: "x",
          keepsAside: 3,
        },
      ],
    } as unknown as QueueView; // as earlier pages wrote it
    const [press] = presentView(kept).presses;
    expect(press).toMatchObject({
      reserves: true,
      reserveUntil: "x",
      reserve: [{ job: "102-1", stage: "reserved", letGo: [] }],
      askedBack: [],
      letGo: null,
    });
    expect(presentView(presentView(kept))).toEqual(presentView(kept));
  });
});
