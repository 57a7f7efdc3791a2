/** An error in the middle of any change leaves nothing of it: not in memory, not on the board, not in the journal. */

import { runDurableObjectAlarm, runInDurableObject } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { expect, it, vi } from "vitest";
import exampleMenu from "../../examples/tern/menu.json";
import type { Fair } from "../../src/fair/fair.ts";
import type { FairTransactions } from "../../src/fair/transact.ts";
import type { WriteKey } from "../../src/model/basics/write-key.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import { StockChange } from "../../src/model/orders/stock.ts";
import type { Stall } from "../../src/stall/stall.ts";
import type { Cursor } from "../../src/stall/storage/snapshot.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import type { Transactions } from "../../src/stall/transact.ts";
import { PLAIN } from "../../src/texting/mapping/mappings.ts";
import { sendingFor } from "../../src/texting/sending/sending.ts";
import { ids } from "../ids.ts";
import { expectAgreement } from "../stall/invariants.ts";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
let writes = 0;
const key = (): WriteKey => ({ scope: `test ${++writes}`, fingerprint: "same" });
// Brands are put on a test's own ids.
const customer = (name: string) => ids.customer(name.padEnd(16, "_"));
const PHONE = "+12125550101" as never;
const FROM_FAIR = { stopped: false, gateway: 0, inAnswer: false };

const opens = Date.now() - HOUR;
const FAIR_HOURS = [
  { opens: new Date(opens).toISOString(), closes: new Date(opens + 10 * HOUR).toISOString() },
];
const identity = (name: string) => ({
  fair: ids.fair("fair"),
  stall: ids.stall(name),
  name,
  fairName: "A fair",
  timeZone: "UTC",
  openings: [{ opens, closes: opens + 10 * HOUR }],
});

/** An open stall at which a customer was asked whether to order; the answer "yes" places the order. */
async function askedStall(name: string) {
  const stall = env.STALL.getByName(`fair/${name}`);
  await stall.open(identity(name), 1, 0);
  await stall.setMenu(1, key(), { type: "set-menu", menu: Menu.parse(exampleMenu) });
  const counted = [
    { sku: "tee.navy.L", counted: 20 },
    { design: "longtail", counted: 20 },
  ];
  await stall.changeStock(1, key(), {
    type: "change-stock",
    entries: StockChange.parse({ entries: counted }).entries,
  });
  return stall;
}

const say = (text: string) => ({ id: `message-${++writes}`, text, customer: customer("ann"), phone: null });
const text = (words: string) => ({ ...say(words), phone: PHONE });

const sending = (version: number) => sendingFor(PLAIN, ids.stall("any"), [], version);
const counterOrder = () => ({
  command: {
    type: "place",
    customer: customer("ben"),
    takenBy: "counter",
    lines: [{ offer: ids.offer("longtail-tee"), colour: "navy", size: "L", quantity: 1 }] as never,
    asks: [0],
  } as const,
  name: "Ben",
  phone: null,
  number: null,
  address: null,
  isUnknown: false,
  generation: 1,
});

const counted = (pieces: number) => ({
  type: "change-stock" as const,
  entries: StockChange.parse({ entries: [{ sku: "tee.navy.L", counted: pieces }] }).entries,
});

/** A fair that grants segments, and a text of its stall that is due. */
async function textToSend(stall: Stall): Promise<void> {
  const fair = { fair: ids.fair("fair"), name: "A fair", timeZone: "UTC", openings: FAIR_HOURS };
  await env.FAIR.getByName("fair").create({ scope: "owner", fingerprint: "" }, fair);
  const { transactions } = stall as unknown as { readonly transactions: Transactions }; // it is protected
  const { identity: of } = transactions.unit.state;
  if (of === null) throw new Error("the stall is not open");
  stall.open(of, 1, 0, sending(2));
  stall.text(text("1 navy L"), FROM_FAIR);
}

/** Rings when the rest after a failure is over. */
function alarmLater(stall: Stall): Promise<void> {
  vi.spyOn(Date, "now").mockReturnValue(Date.now() + 30_000);
  return stall.alarm();
}

/** Each kind of change, its preparation, and its failing step. */
const CHANGES: Readonly<
  Record<
    string,
    {
      readonly before?: (stall: Stall) => unknown;
      readonly change: (stall: Stall) => unknown;
      readonly breaks: (unit: UnitOfWork) => { mockImplementationOnce: (planted: () => never) => unknown };
    }
  >
> = {
  "an order on the web": {
    before: (stall) => stall.chat(say("1 navy L")),
    change: (stall) => stall.chat(say("yes")),
    breaks: ({ people }) => vi.spyOn(people.conversations, "set"),
  },
  "an order by text": {
    before: (stall) => stall.text(text("1 navy L"), FROM_FAIR),
    change: (stall) => stall.text(text("yes"), FROM_FAIR),
    breaks: ({ people }) => vi.spyOn(people.conversations, "set"),
  },
  "an order at the counter": {
    change: (stall) => stall.place(key(), counterOrder()),
    breaks: ({ people }) => vi.spyOn(people.persons, "set"),
  },
  "new hours": {
    change: (stall) => stall.open({ ...identity("new-hours"), fairName: "Another", edition: 1 }, 1, 0),
    breaks: ({ people }) => vi.spyOn(people.access, "set"),
  },
  "what fell due": {
    before: async (stall) => {
      await stall.chat(say("1 navy L"));
      // The hold is over.
      vi.spyOn(Date, "now").mockReturnValue(opens + 2 * HOUR);
    },
    change: (stall) => stall.alarm(),
    breaks: (unit) => vi.spyOn(unit, "drain"),
  },
  "a receipt": {
    before: async (stall) => {
      await stall.place(key(), counterOrder());
      await stall.pull(1, key(), { type: "pull", press: ids.press("A") });
      await stall.onJob(1, key(), { type: "pressed", job: ids.job("101-1") });
    },
    change: (stall) => stall.receipt("101-ready-4", "failed"),
    breaks: (unit) => vi.spyOn(unit, "drain"),
  },
  "another way to send": {
    before: (stall) => stall.open(identity("another-way-to-send"), 1, 0, sending(2)),
    change: (stall) => stall.open(identity("another-way-to-send"), 1, 0, sending(3)),
    breaks: ({ people }) => vi.spyOn(people.rests, "delete"),
  },
  "erasing people": {
    before: async (stall) => {
      await stall.text(text("hello"), { ...FROM_FAIR, inAnswer: true });
      // The countdown begins 48 hours before the day.
      vi.spyOn(Date, "now").mockReturnValue(opens + 10 * HOUR + 28 * DAY);
      await stall.alarm();
      vi.spyOn(Date, "now").mockReturnValue(opens + 10 * HOUR + 30 * DAY);
    },
    change: (stall) => stall.alarm(),
    breaks: ({ people }) => vi.spyOn(people.erased, "set"),
  },
  "a text that is due": {
    before: async (stall) => {
      await stall.chat(say("1 navy L"));
      await stall.chat(say("yes"));
      await stall.pull(1, key(), { type: "pull", press: ids.press("A") });
      await stall.onJob(1, key(), { type: "pressed", job: ids.job("101-1") });
      vi.spyOn(Date, "now").mockReturnValue(opens + HOUR + 120_000);
    },
    change: (stall) => stall.alarm(),
    breaks: ({ people }) => vi.spyOn(people.out, "delete"),
  },
  "stock that orders no longer have": {
    before: (stall) => stall.place(key(), counterOrder()),
    change: (stall) => stall.changeStock(1, key(), counted(0)),
    // The count is in memory by then; the order falls short because of it.
    breaks: ({ state }) => vi.spyOn(state.orders, "set"),
  },
  "stock that orders were waiting for": {
    before: async (stall) => {
      await stall.place(key(), counterOrder());
      await stall.changeStock(1, key(), counted(0));
    },
    change: (stall) => stall.changeStock(1, key(), counted(9)),
    breaks: ({ state }) => vi.spyOn(state.orders, "set"),
  },
  "segments that the fair grants": {
    before: textToSend,
    change: alarmLater,
    breaks: ({ people }) => vi.spyOn(people.budget, "set"),
  },
  "segments that a text uses up": {
    before: async (stall) => {
      await textToSend(stall);
      await alarmLater(stall);
      await stall.text(text("menu"), FROM_FAIR);
    },
    change: alarmLater,
    // The fair granted more than the first text used.
    breaks: ({ people }) => vi.spyOn(people.budget, "set"),
  },
  "a number that wants no more texts": {
    before: (stall) => stall.text(text("hello"), FROM_FAIR),
    change: (stall) => stall.setStopped(customer("ann"), true),
    breaks: ({ people }) => vi.spyOn(people.conversations, "set"),
  },
};

/** Everything a reader can see or a later call can build on. */
const seen = ({ state, people }: UnitOfWork) =>
  JSON.stringify([
    state.version,
    [...state.orders.values()],
    [...state.holds.values()],
    state.identity,
    people.person(customer("ann")),
    people.sending.get(""),
    people.erased.get(""),
    [...people.out.values()],
    people.budget.get(""),
  ]);

/** Changes made by the alarm, which never throws: it rings again. */
const BY_ALARM = [
  "what fell due",
  "a text that is due",
  "erasing people",
  "segments that the fair grants",
  "segments that a text uses up",
];

it.each(Object.entries(CHANGES))("%s", async (name, { before, change, breaks }) => {
  const stub = await askedStall(name.replaceAll(" ", "-"));
  await runInDurableObject(stub, async (stall: Stall, { storage }) => {
    const { transactions } = stall as unknown as { readonly transactions: { readonly unit: UnitOfWork } }; // it is protected
    await before?.(stall);
    const was = seen(transactions.unit);
    breaks(transactions.unit).mockImplementationOnce(() => {
      throw new Error("planted");
    });
    const failed = await Promise.resolve()
      .then(() => change(stall))
      .then(
        () => null,
        (error: Error) => error.message,
      );
    expect(failed).toBe(BY_ALARM.includes(name) ? null : "planted");
    expect(seen(transactions.unit)).toBe(was);
    expectAgreement(transactions.unit.state, storage.kv);

    await change(stall);
    expect(seen(transactions.unit)).not.toBe(was);
    expectAgreement(transactions.unit.state, storage.kv);
    vi.restoreAllMocks();
  });
  await runDurableObjectAlarm(stub);
});

/** The file of a stall as its crew saves it, as one part. */
async function fileOf(stub: DurableObjectStub<Stall>) {
  const parts: Record<string, string[]> = {};
  for (let from: Cursor | null = null; ; ) {
    const page = await stub.everything(1, from);
    if (!page.ok) throw new Error(page.refusal.code);
    parts[page.value.part] = [...(parts[page.value.part] ?? []), ...page.value.rows];
    from = page.value.next;
    if (from === null) break;
  }
  const part = (name: string) => `"${name}":[${(parts[name] ?? []).join(",")}]`;
  const names = ["persons", "conversations", "texts", "orders", "journal", "issued"];
  return { text: new TextEncoder().encode(`{${names.map(part).join(",")}}`), numbers: [], pictures: [] };
}

it("a whole stall taken into an empty one", async () => {
  const source = await askedStall("whole-source");
  await source.place(key(), counterOrder());
  const file = await fileOf(source);
  const stub = env.STALL.getByName("fair/whole-target");
  await stub.open(identity("whole-target"), 1, 0);
  await runInDurableObject(stub, async (stall: Stall, { storage }) => {
    const { transactions } = stall as unknown as { readonly transactions: Transactions }; // it is protected
    const rows = (): string => JSON.stringify([...storage.kv.list()]);
    const was = rows();
    // The last step of replacing: the rows are written by then.
    vi.spyOn(UnitOfWork.prototype, "drain").mockImplementationOnce(() => {
      throw new Error("planted");
    });
    const write = key();
    expect(() => stall.takeEverything(1, write, file)).toThrow("planted");
    expect(rows()).toBe(was);
    expect(transactions.unit.state.menu).toBeNull();
    expect(stall.takeEverything(1, write, file)).toMatchObject({ ok: true });
    expect(transactions.unit.state.orders.size).toBe(1);
    expectAgreement(transactions.unit.state, transactions.store);
    vi.restoreAllMocks();
  });
});

/** Changes of a fair, and the last step of each that breaks. */
const OF_A_FAIR: Readonly<
  Record<
    string,
    {
      readonly change: (fair: Fair) => unknown;
      readonly breaks: (of: FairTransactions) => {
        mockImplementationOnce: (planted: () => never) => unknown;
      };
    }
  >
> = {
  "another stall": {
    change: (fair) => fair.addStall(1, ids.stall("tern"), "Tern"),
    breaks: ({ outbox }) => vi.spyOn(outbox, "add"),
  },
  "new hours of a fair": {
    change: (fair) =>
      fair.change(1, { scope: "hours", fingerprint: "" }, { name: "Another", openings: FAIR_HOURS }, null),
    breaks: ({ outbox }) => vi.spyOn(outbox, "add"),
  },
  "a number that says STOP": {
    change: (fair) => fair.setStopped("a-keyed-hash", true, "as"),
    breaks: ({ routing }) => vi.spyOn(routing.stops, "add"),
  },
};
it.each(Object.entries(OF_A_FAIR))("%s", async (name, { change, breaks }) => {
  const id = ids.fair(name.replaceAll(" ", "-").toLowerCase());
  const stub = env.FAIR.getByName(id);
  await stub.create(
    { scope: "owner", fingerprint: "" },
    {
      fair: id,
      name: "A fair",
      timeZone: "UTC",
      openings: FAIR_HOURS,
    },
  );
  await runInDurableObject(stub, async (fair: Fair, { storage }) => {
    const { transactions } = fair as unknown as { readonly transactions: FairTransactions }; // it is protected
    const look = (): string => JSON.stringify([[...storage.kv.list()], transactions.stalls(), fair.facts()]);
    const was = look();
    breaks(transactions).mockImplementationOnce(() => {
      throw new Error("planted");
    });
    expect(() => change(fair)).toThrow("planted");
    expect(look()).toBe(was);
    change(fair);
    expect(look()).not.toBe(was);
    vi.restoreAllMocks();
  });
});
