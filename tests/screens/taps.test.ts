import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fallsWith, lateNews, nextBefore } from "../../src/screens/client/crew/replies.ts";
import {
  asSent,
  canTakeBack,
  droppedUnder,
  expired,
  type KeptTaps,
  NO_TAPS,
  resent,
  SENT_AGAIN_FOR,
  type Tap,
  tooOld,
  withFirst,
  without,
  withTap,
} from "../../src/screens/client/crew/taps.ts";
import type { Reply } from "../../src/screens/client/kit/api.ts";
import { stallClock } from "../../src/screens/client/kit/stall-clock.ts";
import { KEPT_FOR } from "../../src/stall/storage/recorded-answers.ts";

const HOUR = 3_600_000;

const tap = (path: string, body: unknown = {}, more: Partial<Tap<string>> = {}): Tap<string> => ({
  act: "any",
  path,
  body,
  says: path,
  once: path,
  page: "press",
  at: 0,
  firstSent: null,
  ...more,
});
const pull = (job?: string): Tap<string> =>
  tap("/presses/A/pull", job === undefined ? {} : { job }, { once: `pull ${job}` });
const reply = (status: number, body: unknown = null): Reply => ({ status, body, tag: null, date: null });
const got = (job: string): Reply => reply(200, { job: { job } });
const refused = (name: string, stage?: string): Reply =>
  reply(409, { type: `/problems/${name}`, detail: "Because.", ...(stage === undefined ? {} : { stage }) });

describe("the taps of a tablet", () => {
  it("go in the order they were made, whatever else happens to them", () => {
    const step = fc.oneof(fc.constant("tap"), fc.constant("answered"), fc.constant("sent"));
    fc.assert(
      fc.property(fc.array(step), (steps) => {
        let book: KeptTaps<string> = NO_TAPS;
        let made = 0;
        const answered: number[] = [];
        for (const what of steps) {
          const [first] = book.taps;
          if (what === "tap") {
            book = withTap(book, tap("/any", {}, { once: String(made) }));
            made += 1;
          } else if (first !== undefined && what === "sent") book = asSent(book, first.once, 5);
          else if (first !== undefined) {
            answered.push(Number(first.once));
            book = without(book, first.once);
          }
        }
        expect([...answered, ...book.taps.map(({ once }) => Number(once))]).toEqual(
          Array.from({ length: made }, (_, index) => index),
        );
      }),
    );
  });

  it("can be taken back only as the last and never sent", () => {
    const book = withTap(
      withTap(NO_TAPS as KeptTaps<string>, tap("/jobs/1-1/pressed")),
      tap("/jobs/2-1/pressed"),
    );
    expect(canTakeBack(book, "/jobs/1-1/pressed")).toBe(false);
    expect(canTakeBack(book, "/jobs/2-1/pressed")).toBe(true);
    expect(canTakeBack(asSent(book, "/jobs/2-1/pressed", 1), "/jobs/2-1/pressed")).toBe(false);
  });

  it("are not sent again once the stall may have forgotten them, unless somebody says so, as a new write", () => {
    expect(SENT_AGAIN_FOR).toBeLessThan(KEPT_FOR);
    const sent = tap("/orders", {}, { firstSent: 0 });
    expect(tooOld(sent, KEPT_FOR - 2 * HOUR)).toBe(false);
    expect(tooOld(sent, KEPT_FOR)).toBe(true);
    // A tap that was never sent cannot have happened; and a clock moved back makes none old.
    expect(tooOld(tap("/orders"), 10 * KEPT_FOR)).toBe(false);
    expect(tooOld({ ...sent, firstSent: KEPT_FOR * 5 }, 0)).toBe(false);
    const book = expired(withTap(NO_TAPS as KeptTaps<string>, sent), sent, { id: "news", text: "old" });
    expect(book.taps).toEqual([]);
    const again = resent(book, "news", "another key");
    expect(again).toEqual({ taps: [{ ...sent, once: "another key", firstSent: null }], news: [] });
  });
});

describe("what late answers mean", () => {
  it("is told for every refusal, and for what the screen could not show", () => {
    expect(lateNews(tap("/jobs/1-1/pressed"), refused("wrong-stage", "pressed"))).toContain(
      "already marked it pressed",
    );
    const dropped = lateNews(tap("/jobs/1-1/pressed"), refused("no-such-job"));
    expect(dropped).toContain("cancelled or has ended");
    expect(dropped).toContain("one too many");
    expect(lateNews(tap("/orders/101/collected"), refused("not-paid"))).toContain("Because.");
    expect(lateNews(pull("1-1"), got("2-1"))).toContain("Press A had 2-1 on it already");
    expect(lateNews(pull("1-1"), got("1-1"))).toBeNull();
    expect(lateNews(tap("/jobs/1-1/pressed"), reply(200, {}))).toBeNull();
  });

  it("keeps back what was done to a garment that never came onto the press", () => {
    expect(fallsWith(pull("1-1"), got("1-1"))).toBeNull();
    expect(fallsWith(pull(), refused("press-down"))).toBeNull();
    const path = fallsWith(pull("1-1"), refused("wrong-stage", "elsewhere")) ?? "";
    const book: KeptTaps<string> = {
      taps: [tap("/jobs/1-1/pressed"), tap("/jobs/1-10/pressed"), tap("/jobs/11-1/pressed")],
      news: [],
    };
    const after = droppedUnder(book, path, ({ says }) => ({ id: says, text: says }));
    expect(after.taps.map((one) => one.path)).toEqual(["/jobs/1-10/pressed", "/jobs/11-1/pressed"]);
    expect(after.news.map(({ id }) => id)).toEqual(["/jobs/1-1/pressed"]);
  });

  it("gives the stall's choice back where the operator took one of the reserve meanwhile", () => {
    const rest = [tap("/jobs/9-1/spoiled"), pull("2-1")];
    expect(nextBefore(pull(), got("1-1"), rest)).toMatchObject({ path: "/jobs/1-1/returned" });
    expect(nextBefore(pull(), got("2-1"), rest)).toBeNull();
    expect(nextBefore(pull(), reply(204), rest)).toBeNull();
    expect(nextBefore(pull("1-1"), got("1-1"), rest)).toBeNull();
    expect(nextBefore(pull(), got("1-1"), [])).toBeNull();
    const book = withFirst({ taps: rest, news: [] }, tap("/jobs/1-1/returned"));
    expect(book.taps.map((one) => one.path)).toEqual([
      "/jobs/1-1/returned",
      "/jobs/9-1/spoiled",
      "/presses/A/pull",
    ]);
  });
});

describe("the stall's clock as a tablet knows it", () => {
  it("is right to the quickest answer, however wrong the tablet's own is", () => {
    let tablet = 0;
    const clock = stallClock(() => tablet);
    expect(clock.now()).toBeNull();
    // The tablet is a day behind; answers take 900 ms and 200 ms.
    for (const delay of [900, 200, 700]) {
      clock.heard(tablet + 24 * HOUR - delay);
      tablet += 5000;
    }
    expect(clock.now()).toBe(new Date(tablet + 24 * HOUR - 200).toISOString());
  });
});
