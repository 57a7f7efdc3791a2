/**
 * A day's account worked out a second time, from the journal alone and with nothing of src/stall but types:
 * what the rows kept along the way are checked against.
 */
import type { JournalEntry, StallEvent } from "../../src/stall/state/shapes/event.ts";
import type { RackItem } from "../../src/stall/state/shapes/line.ts";
import type { Order } from "../../src/stall/state/shapes/order.ts";

type Paid = { parts: { tender: string; amount: number }[]; at: number };
type Known = {
  order: Order;
  paid: Paid | null;
  /** The part of the payment to give back. */
  owed: number;
  endings: { as: string; at: number }[];
  pressed: Set<number>;
  /** Garments whose money was given back, with what that was. */
  returned: Returned[];
};
type Returned = {
  job: Order["jobs"][number];
  share: number;
  amount: number;
  tax: number;
  parts: { tender: string; amount: number }[];
  noted: boolean;
};

export type Recounted = {
  pieces: Record<string, Record<string, number>>;
  choices: Record<string, Record<string, number>>;
  takings: Record<string, { payments: number; amount: number; returns: number; givenBack: number }>;
  tax: number;
  ready: { promised: number; kept: number };
};

const PACKING_UP = 6 * 3_600_000;

/** Each line's net sales: every minor unit goes to the line that lacks most of its exact part. */
function broughtBy({ lines, total, tax }: Order): number[] {
  const priced = lines.map(
    ({ each, quantity, off = 0, lowered }) => (each - (lowered?.by ?? 0)) * quantity - off,
  );
  const all = priced.reduce((sum, price) => sum + price, 0);
  const net = total - tax;
  const parts = priced.map((price) => (all === 0 ? 0 : Math.floor((net * price) / all)));
  const lacks = (at: number): number => net * (priced[at] ?? 0) - (parts[at] ?? 0) * all;
  for (let left = net - parts.reduce((sum, part) => sum + part, 0); left > 0; left--) {
    const most = parts.reduce((best, _, at) => (lacks(at) > lacks(best) ? at : best), 0);
    parts[most] = (parts[most] ?? 0) + 1;
  }
  return parts;
}

/** Every day's account, by its date. The fair's clock is New York's in June: four hours behind. */
export function recount(
  journal: Iterable<JournalEntry>,
  openings: readonly { opens: number; closes: number }[],
): Map<string, Recounted> {
  const days = new Map<string, Recounted>();
  const orders = new Map<number, Known>();
  const hand = new Map<string, number>();
  let closedThrough = "";
  let reopened: string | null = null;

  const dateOf = (at: number): string => new Date(at - 4 * 3_600_000).toISOString().slice(0, 10);
  const dayOf = (at: number): string => {
    if (reopened !== null) return reopened;
    const open = [...openings].reverse().find(({ opens, closes }) => opens <= at && at < closes + PACKING_UP);
    const natural = dateOf(open?.opens ?? at);
    return natural > closedThrough ? natural : dateOf(Date.parse(`${closedThrough}T16:00:00Z`) + 86_400_000);
  };
  const bookOf = (at: number): Recounted => {
    const day = dayOf(at);
    const book = days.get(day) ?? {
      pieces: {},
      choices: {},
      takings: {},
      tax: 0,
      ready: { promised: 0, kept: 0 },
    };
    days.set(day, book);
    return book;
  };
  const add = (
    rows: Record<string, Record<string, number>>,
    row: string,
    field: string,
    more: number,
  ): void => {
    const before = rows[row] ?? {};
    before[field] = (before[field] ?? 0) + more;
    rows[row] = before;
  };
  const known = (number: number): Known => {
    const found = orders.get(number);
    if (found === undefined) throw new Error(`order ${number} was never placed`);
    return found;
  };
  const garment = ({ order }: Known, n: number) => {
    const line = order.lines[order.jobs.find((job) => job.n === n)?.line ?? 0];
    if (line === undefined) throw new Error("a garment without a line");
    if (line.rack !== undefined) return { line, blanks: [], transfers: [] };
    const blanks = line.own === true ? [] : [`sku:${line.blank}.${line.colour}.${line.size}`];
    const transfers = [line.design, ...(line.second ?? [])].map((design) => `transfer:${design}`);
    return { line, blanks, transfers };
  };
  const change = (at: number, piece: string, field: string, more: number, effect: number): void => {
    add(bookOf(at).pieces, piece, field, more);
    hand.set(piece, (hand.get(piece) ?? 0) + effect);
  };
  const sold = ({ paid, endings, order }: Known): Paid | null => {
    const last = endings.at(-1);
    if (last?.as === "refunded" || last?.as === "exchanged") return null;
    if (paid !== null) return paid;
    return last?.as === "collected"
      ? { parts: [{ tender: "not-noted", amount: order.total }], at: last.at }
      : null;
  };
  const back = ({ endings }: Known): boolean => ["refunded", "exchanged"].includes(endings.at(-1)?.as ?? "");
  const kept = ({ endings }: Known): boolean => ["collected", undefined].includes(endings.at(-1)?.as);
  const takings = (at: number, tender: string) => {
    const book = bookOf(at);
    const row = book.takings[tender] ?? { payments: 0, amount: 0, returns: 0, givenBack: 0 };
    book.takings[tender] = row;
    return row;
  };
  /** Changes an order, and records what that did to the sales. */
  const changing = (number: number, at: number, work: (order: Known) => void): void => {
    const order = known(number);
    const [was, cameBackBefore, keptBefore] = [sold(order), back(order), kept(order)];
    work(order);
    const [is, cameBack, keptAfter] = [sold(order), back(order), kept(order)];
    const sale = is ?? was;
    if (sale !== null && (was === null) !== (is === null)) {
      const times = is === null ? -1 : 1;
      const returning = is === null ? cameBack : cameBackBefore;
      const brought = broughtBy(order.order);
      for (const [index, line] of order.order.lines.entries()) {
        const choice = `${line.offer}.${line.colour}.${line.size}`;
        const { choices } = bookOf(at);
        if (returning) add(choices, choice, "returned", -times * line.quantity);
        else {
          add(choices, choice, "garments", times * line.quantity);
          add(choices, choice, "amount", times * (brought[index] ?? 0));
        }
      }
      bookOf(at).tax += times * order.order.tax;
      for (const { tender, amount } of sale.parts) {
        const row = takings(at, tender);
        if (returning) {
          row.returns -= times;
          row.givenBack -= times * amount;
        } else {
          row.payments += times;
          row.amount += times * amount;
        }
      }
    }
    if (keptBefore !== keptAfter) {
      for (const n of order.pressed) {
        const { line } = garment(order, n);
        const choice = `${line.offer}.${line.colour}.${line.size}`;
        add(bookOf(at).choices, choice, "unsold", keptBefore ? 1 : -1);
      }
    }
  };
  /** Takes what an order's lines brought out of the day's sales, or puts it in. */
  const amounts = ({ order }: Known, times: 1 | -1, at: number): void => {
    const brought = broughtBy(order);
    for (const [index, { offer, colour, size }] of order.lines.entries())
      add(bookOf(at).choices, `${offer}.${colour}.${size}`, "amount", times * (brought[index] ?? 0));
  };
  const ready = (number: number, readyAt: number, times: 1 | -1, at: number, dueBy: number | null): void => {
    if (dueBy === null || known(number).order.jobs.length === 0) return;
    const book = bookOf(at);
    book.ready.promised += times;
    book.ready.kept += readyAt <= dueBy ? times : 0;
  };
  /** A new total of an order: a lower one adds to the amount to give back, a higher one first reduces it. */
  const retotal = (order: Known, { tax, total }: { tax: number; total: number }, at: number): void => {
    const { paid } = order;
    if (paid === null) return;
    bookOf(at).tax += tax - order.order.tax;
    const sum = paid.parts.reduce((all, { amount }) => all + amount, 0);
    const more = total - order.order.total;
    if (more > 0) {
      const last = paid.parts.at(-1);
      const taken = Math.min(more, order.owed);
      if (last !== undefined) {
        last.amount += taken;
        takings(at, last.tender).amount += taken;
      }
      order.owed -= taken;
      return;
    }
    let off = Math.max(0, sum - total);
    order.owed += off;
    while (off > 0) {
      const last = paid.parts.at(-1);
      if (last === undefined) throw new Error("more is given back than was paid");
      const part = Math.min(off, last.amount);
      last.amount -= part;
      takings(at, last.tender).amount -= part;
      off -= part;
      if (last.amount === 0 && paid.parts.length > 1) {
        paid.parts.pop();
        takings(at, last.tender).payments -= 1;
      }
    }
  };
  const rack = new Map<string, Pick<RackItem, "offer" | "colour" | "size" | "from">>();
  const due = new Map<number, number | null>();
  const readyAt = new Map<number, number>();
  const unpress = (event: Extract<StallEvent, { number: number; n: number }>, at: number): void => {
    const order = known(event.number);
    const { blanks, transfers } = garment(order, event.n);
    for (const piece of [...blanks, ...transfers]) change(at, piece, "pressed", -1, 1);
    order.pressed.delete(event.n);
    const when = readyAt.get(event.number);
    if (when === undefined) return;
    ready(event.number, when, -1, at, due.get(event.number) ?? null);
    readyAt.delete(event.number);
  };

  /** A refunded garment is its order's again: all that its refund did is undone. */
  const undoRefund = (number: number, n: number, at: number): void => {
    const order = known(number);
    const found = order.returned.findLastIndex(({ job }) => job.n === n);
    const [back] = order.returned.splice(found, 1);
    if (back === undefined) throw new Error(`${number}-${n} was never refunded`);
    const { job, share, amount, tax, parts } = back;
    const lines = order.order.lines.map((line, index) =>
      index === job.line ? { ...line, quantity: line.quantity + 1, off: (line.off ?? 0) + share } : line,
    );
    const jobs = [...order.order.jobs, job].sort((one, other) => one.n - other.n);
    order.order = {
      ...order.order,
      lines,
      jobs,
      tax: order.order.tax + tax,
      total: order.order.total + amount,
    };
    order.pressed.add(n);
    const line = lines[job.line];
    if (line === undefined) throw new Error(`${number}-${n} has no line`);
    const choice = `${line.offer}.${line.colour}.${line.size}`;
    add(bookOf(at).choices, choice, "returned", -1);
    if (line.own !== true) add(bookOf(at).choices, choice, "unsold", -1);
    bookOf(at).tax += tax;
    for (const part of parts) {
      const row = takings(at, part.tender);
      row.returns -= 1;
      row.givenBack -= part.amount;
      const same = order.paid?.parts.find(({ tender }) => tender === part.tender);
      if (same !== undefined) same.amount += part.amount;
      else order.paid?.parts.push({ ...part } as Paid["parts"][number]); // a tender: it was paid
    }
  };

  for (const { at: written, events } of journal) {
    for (const event of events) {
      const at = ("tappedAt" in event ? event.tappedAt : undefined) ?? written;
      if (event.type === "counted") {
        const before = hand.get(event.piece);
        const field = before === undefined ? "opening" : "found";
        change(at, event.piece, field, event.onHand - (before ?? 0), event.onHand - (before ?? 0));
      }
      if (event.type === "delivered" || event.type === "corrected")
        change(at, event.piece, event.type, event.pieces, event.pieces);
      if (event.type === "asked") {
        const choice = `${event.offer}.${event.colour}.${event.size}`;
        add(bookOf(at).choices, choice, "asked", event.garments);
        if (event.unmet !== null) add(bookOf(at).choices, choice, "unmet", event.garments);
      }
      if (event.type === "placed") {
        orders.set(event.order.number, {
          order: event.order,
          paid: null,
          owed: event.order.giveBack ?? 0,
          endings: [],
          returned: [],
          pressed: new Set(event.order.jobs.flatMap(({ n, stage }) => (stage === "pressed" ? [n] : []))),
        });

        due.set(event.order.number, event.order.dueBy);
      }
      if (event.type === "paid") {
        if (due.get(event.number) === null) due.set(event.number, event.dueBy);
        changing(event.number, at, (order) => {
          const parts = event.parts ?? [{ tender: event.tender, amount: event.amount }];
          order.paid = { parts: parts.map((part) => ({ ...part })), at };
        });
      }
      if (event.type === "undo-paid") {
        if (event.carried) known(event.number).owed = 0;
        if (event.leavesLine) due.set(event.number, null);
        changing(event.number, at, (order) => {
          order.paid = null;
        });
      }
      if (event.type === "requoted") due.set(event.number, event.dueBy);
      if (event.type === "closed" && event.unexchanged === true)
        known(event.number).endings.push({ as: event.as, at });
      else if (event.type === "closed")
        changing(event.number, at, ({ endings }) => void endings.push({ as: event.as, at }));
      if (event.type === "undo-closed") changing(event.number, at, ({ endings }) => void endings.pop());
      if (event.type === "pressed") {
        const order = known(event.number);
        const { blanks, transfers } = garment(order, event.n);
        for (const piece of [...blanks, ...transfers]) change(at, piece, "pressed", 1, -1);
        order.pressed.add(event.n);
        if (order.pressed.size === order.order.jobs.length) {
          readyAt.set(event.number, at);
          ready(event.number, at, 1, at, due.get(event.number) ?? null);
        }
      }
      if (event.type === "given-back") known(event.number).owed -= event.amount;
      if (event.type === "more-paid") {
        known(event.number).paid?.parts.push({ tender: event.tender, amount: event.amount });
        const row = takings(at, event.tender);
        row.payments += 1;
        row.amount += event.amount;
      }
      if (event.type === "changed") {
        const order = known(event.number);
        const count = (times: 1 | -1): void => {
          if (sold(order) === null) return;
          amounts(order, times, at);
          for (const { offer, colour, size, quantity } of order.order.lines)
            add(bookOf(at).choices, `${offer}.${colour}.${size}`, "garments", times * quantity);
        };
        count(-1);
        retotal(order, event, at);
        const { lines, jobs, tax, total } = event;
        order.order = { ...order.order, lines, jobs, tax, total };
        if (event.unexchanged !== undefined) {
          order.pressed.add(event.unexchanged);
          const { line } = garment(order, event.unexchanged);
          const choice = `${line.offer}.${line.colour}.${line.size}`;
          if (line.own !== true) add(bookOf(at).choices, choice, "unsold", -1);
        }
        // One of them may be made again, for another that came back.
        const waits = jobs.filter(({ n, stage }) => stage !== "pressed" && order.pressed.has(n));
        for (const { n } of waits) order.pressed.delete(n);
        const when = readyAt.get(event.number);
        if (when !== undefined && waits.length > 0) {
          ready(event.number, when, -1, at, due.get(event.number) ?? null);
          readyAt.delete(event.number);
        }
        count(1);
        if (due.get(event.number) !== null) due.set(event.number, event.dueBy);
        // One that was ready already stays as ready as it was.
        if (jobs.length > 0 && order.pressed.size === jobs.length && !readyAt.has(event.number)) {
          const all = order.order.lines.every(({ rack, quantity }) => rack !== undefined || quantity === 0);
          if (!all) {
            readyAt.set(event.number, at);
            ready(event.number, at, 1, at, due.get(event.number) ?? null);
          }
        }
      }
      if (event.type === "garment-refunded") {
        const order = known(event.number);
        const { line } = garment(order, event.n);
        const choice = `${line.offer}.${line.colour}.${line.size}`;
        add(bookOf(at).choices, choice, "returned", 1);
        bookOf(at).tax -= event.tax;
        const parts: Returned["parts"] = [];
        let off = Math.min(
          event.amount,
          order.paid?.parts.reduce((sum, { amount }) => sum + amount, 0) ?? event.amount,
        );
        if (order.paid === null) {
          const row = takings(at, "not-noted");
          row.returns += 1;
          row.givenBack += off;
          parts.push({ tender: "not-noted", amount: off });
        }
        while (order.paid !== null && off > 0) {
          const last = order.paid.parts.at(-1);
          if (last === undefined) throw new Error("more is given back than was paid");
          const part = Math.min(off, last.amount);
          last.amount -= part;
          off -= part;
          const row = takings(at, last.tender);
          row.returns += 1;
          row.givenBack += part;
          parts.push({ tender: last.tender, amount: part });
          if (last.amount === 0 && order.paid.parts.length > 1) order.paid.parts.pop();
        }
        const share = Math.floor((line.off ?? 0) / line.quantity);
        const job = order.order.jobs.find(({ n }) => n === event.n);
        const { amount, tax } = event;
        if (job !== undefined)
          order.returned.push({ job, share, amount, tax, parts, noted: order.paid !== null });
        order.order = {
          ...order.order,
          lines: order.order.lines.map((other) =>
            other === line
              ? { ...other, quantity: other.quantity - 1, off: (other.off ?? 0) - share }
              : other,
          ),
          jobs: order.order.jobs.filter(({ n }) => n !== event.n),
          tax: order.order.tax - event.tax,
          total: order.order.total - event.amount,
        };
        order.pressed.delete(event.n);
      }
      if (event.type === "undo-garment-refunded") undoRefund(event.number, event.n, at);
      if (event.type === "racked") {
        rack.set(event.key, event.item);
        const { offer, colour, size, from } = event.item;
        if (from === "garment") add(bookOf(at).choices, `${offer}.${colour}.${size}`, "unsold", 1);
      }
      if (event.type === "unracked" && event.as === "sold") {
        const item = rack.get(event.key);
        if (item === undefined) throw new Error(`${event.key} was never on the rack`);
        if (item.from === "order" || item.from === "garment")
          add(bookOf(at).choices, `${item.offer}.${item.colour}.${item.size}`, "unsold", -1);
      }
      if (event.type === "undo-unracked" && ["order", "garment"].includes(event.item.from)) {
        const { offer, colour, size } = event.item;
        add(bookOf(at).choices, `${offer}.${colour}.${size}`, "unsold", 1);
      }
      if (event.type === "taken-instead") {
        const order = known(event.number);
        const { line } = garment(order, event.n);
        const isSold = sold(order) !== null;
        if (isSold) {
          amounts(order, -1, at);
          for (const [one, times] of [
            [line, -1],
            [event.line, 1],
          ] as const) {
            const choice = `${one.offer}.${one.colour}.${one.size}`;
            add(bookOf(at).choices, choice, "garments", times);
          }
        }
        const share = Math.floor((line.off ?? 0) / line.quantity);
        // A line for each garment, so that only their numbers distinguish garments.
        const lines = [
          ...order.order.lines.map((other) =>
            other === line
              ? { ...other, quantity: other.quantity - 1, off: (other.off ?? 0) - share }
              : other,
          ),
          { ...event.line, off: share },
        ];
        const jobs = order.order.jobs.map((job) =>
          job.n === event.n ? { ...job, line: lines.length - 1 } : job,
        );
        order.order = { ...order.order, lines, jobs };
        if (isSold) amounts(order, 1, at);
      }
      if (event.type === "left-out") {
        const order = known(event.number);
        const { line } = garment(order, event.n);
        const isSold = sold(order) !== null;
        if (isSold) amounts(order, -1, at);
        if (isSold) add(bookOf(at).choices, `${line.offer}.${line.colour}.${line.size}`, "garments", -1);
        retotal(order, event, at);
        const share = Math.floor((line.off ?? 0) / line.quantity);
        const lines = order.order.lines.map((other) =>
          other === line ? { ...other, quantity: other.quantity - 1, off: (other.off ?? 0) - share } : other,
        );
        const jobs = order.order.jobs.filter(({ n }) => n !== event.n);
        order.order = { ...order.order, lines, jobs, tax: event.tax, total: event.total };
        if (isSold) amounts(order, 1, at);
        if (order.pressed.size === jobs.length) {
          readyAt.set(event.number, at);
          ready(event.number, at, 1, at, due.get(event.number) ?? null);
        }
      }
      if (event.type === "undo-pressed") unpress(event, at);
      if (event.type === "spoiled" || event.type === "undo-spoiled") {
        const order = known(event.number);
        const times = event.type === "spoiled" ? 1 : -1;
        if (order.pressed.has(event.n)) unpress(event, at);
        const { blanks, transfers } = garment(order, event.n);
        const lost =
          event.lost === "both"
            ? [...blanks, ...transfers]
            : event.lost === "blank"
              ? blanks
              : transfers.slice(-1);
        for (const piece of lost) change(at, piece, `spoiled ${event.reason}`, times, -times);
      }
      if (event.type === "day-closed") {
        if (event.day > closedThrough) closedThrough = event.day;
        reopened = null;
      }
      if (event.type === "day-reopened") reopened = event.day;
    }
  }
  return days;
}
