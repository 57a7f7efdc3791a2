/**
 * The organiser stops a fair of 300 stalls: each alarm informs 40, until all have it, including one that was
 * unreachable.
 */

import { expect, it } from "vitest";
import { Fair } from "../../../src/fair/fair.ts";
import type { OrganiserWord } from "../../../src/fair/reports.ts";
import type { OrganiserNews } from "../../../src/model/fair/organising.ts";
import { ids } from "../../ids.ts";
import { Life, Rows, storageFor } from "./storage.ts";

const STALLS = 300;
const AT_ONCE = 40;
const STOP = { reason: "storm", pressing: true };

it("reaches 300 stalls in eight rings of the alarm, one that cannot be reached once it is back, and undone it reaches all", async () => {
  const alarm = {
    at: null as number | null,
    set: (at: number): void => {
      alarm.at = at;
    },
  };
  const heard = new Map<string, OrganiserWord>();
  let calls = 0;
  let away: string | null = "fair/stall-7";
  const stallAt = (name: string) => ({
    open: async (...[, , , , word]: readonly [unknown, unknown, unknown, unknown, OrganiserWord]) => {
      calls += 1;
      if (name === away) throw new Error("the stall is away");
      heard.set(name, word);
    },
  });
  const ctx = { storage: storageFor(new Rows(), new Life(), alarm) };
  const fair = new Fair(ctx as never, { STALL: { getByName: stallAt } } as never); // as far as the fair uses them
  const openings = [{ opens: "2027-06-12T14:00:00Z", closes: "2027-06-13T00:00:00Z" }];
  fair.create({ scope: "owner", fingerprint: "" }, {
    fair: "fair",
    name: "A fair",
    timeZone: "UTC",
    openings,
  } as never); // a plain id
  for (let n = 0; n < STALLS; n++) fair.addStall(1, ids.stall(`stall-${n}`), `Stall ${n}`);

  /** Rings until everybody has heard, but for who is away; gives how often. */
  const ringOut = async (left: number): Promise<number> => {
    for (let rings = 0; ; rings++) {
      const news = fair.organiserNews(1);
      if (!news.ok) throw new Error(news.refusal.code);
      if (news.value.untold.length <= left) return rings;
      calls = 0;
      await fair.alarm();
      expect(calls).toBeLessThanOrEqual(AT_ONCE);
      expect(alarm.at).not.toBeNull();
    }
  };
  const stopped = () => [...heard.values()].filter(({ stop }) => stop !== null).length;

  expect(await ringOut(1)).toBe(Math.ceil(STALLS / AT_ONCE));
  expect(fair.setOrderStop(1, STOP)).toMatchObject({ ok: true });
  const before = (fair.organiserNews(1) as { value: OrganiserNews }).value; // it was asked with the fair's key
  expect([before.untold.length, before.stop?.reason]).toEqual([STALLS, "storm"]);
  expect(await ringOut(1)).toBe(Math.ceil(STALLS / AT_ONCE));
  expect(stopped()).toBe(STALLS - 1);
  // A repeat is no news, and no customer is told twice.
  fair.setOrderStop(1, STOP);
  expect(await ringOut(1)).toBe(0);

  away = null;
  fair.setOrderStop(1, null);
  expect(await ringOut(0)).toBe(Math.ceil(STALLS / AT_ONCE));
  expect([heard.size, stopped()]).toEqual([STALLS, 0]);
});
