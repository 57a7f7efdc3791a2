/** Two people editing a menu at once (RFC 9110, section 13.1.1), and what an edit would break. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import type { OpenNeeds } from "../../src/model/orders/open-needs.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import { at, example, type Running, shared } from "./running.ts";

let running: Running;
let crew: Client;
let base: string;

beforeAll(async () => {
  running = await shared();
  const fair = await example(running);
  base = at(fair);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
});

async function whole(): Promise<{ readonly menu: Menu; readonly tag: string }> {
  const { body, headers } = await crew.get<Menu>(`${base}/menu/whole`);
  return { menu: body, tag: headers.get("ETag") ?? "" };
}

describe("saving a menu on top of the one it began from", () => {
  it("refuses the later of two saves, and takes it when it is sent on top of the earlier", async () => {
    const { menu, tag } = await whole();
    const mine = { ...menu, rules: { ...menu.rules, holdMinutes: 7 } };
    const theirs = { ...menu, rules: { ...menu.rules, lowStock: 9 } };
    const first = await crew.put(`${base}/menu`, theirs, { "If-Match": tag });
    expect(first.status).toBe(200);
    expect(first.headers.get("ETag")).not.toBe(tag);
    const late = await crew.put<Problem>(`${base}/menu`, mine, { "If-Match": tag });
    expect([late.status, late.body.type]).toEqual([412, "/problems/menu-changed"]);
    expect((await whole()).menu.rules).toMatchObject({ holdMinutes: 3, lowStock: 9 });
    const again = await crew.put(
      `${base}/menu`,
      { ...theirs, rules: { ...theirs.rules, holdMinutes: 7 } },
      {
        "If-Match": first.headers.get("ETag") ?? "",
      },
    );
    expect(again.status).toBe(200);
    expect((await whole()).menu.rules).toMatchObject({ holdMinutes: 7, lowStock: 9 });
  });

  it("compares strongly: a weak tag matches nothing, and a star matches any", async () => {
    const { menu, tag } = await whole();
    expect((await crew.put(`${base}/menu`, menu, { "If-Match": `W/${tag}` })).status).toBe(412);
    expect((await crew.put(`${base}/menu`, menu, { "If-Match": "*" })).status).toBe(200);
  });
});

describe("an edit during the fair", () => {
  it("is tried without being made, names the orders it would break, and leaves their price alone", async () => {
    const line = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 2 };
    const order = (await crew.post<PlacedOrder>(`${base}/orders`, { lines: [line] })).body;
    const { menu, tag } = await whole();
    const tee = menu.blanks[0];
    const without = {
      ...menu,
      blanks: [{ ...tee, colours: tee?.colours.filter(({ id }) => id !== "navy") }],
    };
    const tried = await crew.post<{ errors: { detail: string }[] }>(`${base}/menu/try`, {
      ...without,
      blanks: [...without.blanks, ...menu.blanks.slice(1)],
      offers: menu.offers.map(({ colours: _, ...offer }) => offer),
    });
    expect(tried.body.errors.map(({ detail }) => detail).join()).toContain(
      `is needed by order ${order.number};`,
    );
    expect((await whole()).tag).toBe(tag);
    const { body: needs } = await crew.get<OpenNeeds>(`${base}/needs`);
    expect(needs.orders).toMatchObject([{ number: order.number, lines: [{ ...line, promised: 2 }] }]);

    const offers = menu.offers.map((offer) => ({ ...offer, price: offer.price + 500 }));
    expect((await crew.put(`${base}/menu`, { ...menu, offers }, { "If-Match": tag })).status).toBe(200);
    const kept = await crew.get<{ total: { amount: number } }>(`${base}/orders/${order.number}/whole`);
    expect(kept.body.total).toEqual(order.total);
    const next = (await crew.post<PlacedOrder>(`${base}/orders`, { lines: [line] })).body;
    expect(next.total.amount).toBeGreaterThan(order.total.amount);
  });
});
