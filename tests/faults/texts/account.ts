/** The faults after a rush: none, if no text and no order was lost or doubled. */
import type { CrewOrderView } from "../../../src/model/orders/order.ts";
import { PAPER_NUMBERS } from "../../../src/model/orders/place-order.ts";
import type { StockView } from "../../../src/model/orders/stock.ts";
import type { Rush } from "./rush.ts";

/** Every fault of a rush, in words. */
export async function faultsOf({
  customers,
  entries,
  collected,
  base,
  crew,
}: Rush): Promise<readonly string[]> {
  const faults: string[] = [];
  const say = (fault: string): void => void faults.push(fault);
  const numbers = customers.map(({ order }) => order);
  if (new Set(numbers).size !== customers.length) say("two customers were told the same order number");
  for (const { phone, order } of customers) {
    const { status, body } = await crew.get<CrewOrderView>(`${base}/orders/${order}/whole`);
    if (status !== 200) say(`order ${order} does not exist`);
    else if (body.phone !== `…${phone.slice(-4)}`) say(`order ${order} is somebody else's`);
    else if (!["sent", "nothing"].includes(body.told)) say(`order ${order}: its customer is ${body.told}`);
    const texts = entries.flatMap((entry) => (entry.is === "out" && entry.to === phone ? [entry] : []));
    const replies = texts.filter(({ key }) => !key.includes("-ready-"));
    const ready = texts.filter(({ key }) => key.includes(`.${order}-ready-`));
    if (replies.length !== 2) say(`${replies.length} replies to two texts of ${phone}`);
    if (ready.length > 1) say(`order ${order} was called ready ${ready.length} times`);
    if (ready.length === 0 && !collected.has(order ?? 0)) say(`order ${order} was never called ready`);
    if (texts.length !== replies.length + ready.length)
      say(`${phone} was told of an order of somebody else's`);
  }
  const last = Math.max(...numbers.map((number) => number ?? 0));
  const paper = last > PAPER_NUMBERS.last ? PAPER_NUMBERS.last - PAPER_NUMBERS.first + 1 : 0;
  if (last !== 100 + customers.length + paper)
    say(`the last order is ${last} for ${customers.length} customers`);
  if ((await crew.get(`${base}/orders/${last + 1}/whole`)).status !== 404) say("there is an order too many");
  const stock = await crew.get<StockView>(`${base}/stock`);
  const navy = stock.body.skus.find(({ sku }) => sku === "tee.navy.L");
  if (navy?.onHand !== 10 || navy.promised !== 0)
    say(`stock is ${JSON.stringify(navy)}, and 10 should be left`);
  const keys = entries.flatMap((entry) => (entry.is === "out" ? [entry.key] : []));
  if (new Set(keys).size !== keys.length) say("the gateway sent a text twice");
  return faults;
}

/** How bad the day was: texts the gateway accepted, and repeats among them. */
export const badness = ({ entries }: Rush) => ({
  texts: entries.filter(({ is }) => is === "out").length,
  again: entries.filter(({ is }) => is === "again").length,
});
