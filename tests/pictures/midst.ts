/** An example fair in the midst of its day: orders in line, on the presses, ready and handed over. */
import type { Client } from "../../src/local/client.ts";
import type { ChatReply } from "../../src/model/orders/chat.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { at, example, type Running } from "../http/running.ts";

export type Midst = {
  readonly fair: string;
  /** The first stall's address, "fair/stall". */
  readonly place: string;
  readonly crewKey: string;
  readonly organiserKey: string;
  /** The address of a stall without orders. */
  readonly idle: string;
  /** The browser storage of a customer whose order is ready. */
  readonly customers: readonly (readonly [name: string, value: string])[];
  /** The number of an order that is ready. */
  readonly ready: number;
  /** The browser storage of a crew that is also the organiser. */
  readonly kept: readonly (readonly [name: string, value: string])[];
};

const LINES = [
  ["longtail-tee", "navy", "L", 1],
  ["otter-tee", "sand", "M", 2],
  ["tern-cap", "black", "one", 1],
  ["longtail-tee", "navy", "M", 1],
  ["otter-tee", "sand", "L", 1],
  ["longtail-tee", "sand", "S", 3],
  ["longtail-tee", "navy", "XL", 1],
] as const;

export async function fairInTheMidst(running: Running): Promise<Midst> {
  const fair = await example(running);
  const [stall, other] = fair.stalls;
  if (stall === undefined || other === undefined) throw new Error("the example fair has no two stalls");
  const base = at(fair);
  const crew = running.anyone.withKey(stall.key);
  const numbers: number[] = [];
  // The first in line, from the web.
  const says = (id: string, text: string, as: Client) =>
    as.post<ChatReply>(`${base}/chat`, { id: id.repeat(22), text });
  const { customer } = (await says("a", "1 navy L", running.anyone)).body;
  await says("b", "yes", running.anyone.withKey(customer));
  for (const [offer, colour, size, quantity] of LINES) {
    const lines = [{ offer, colour, size, quantity }];
    const placed = await crew.post<PlacedOrder>(`${base}/orders`, { lines, name: "Wren" });
    if (placed.status !== 201) throw new Error(`an order was refused: ${JSON.stringify(placed.body)}`);
    numbers.push(placed.body.number);
  }
  await running.anyone.post(`${base}/orders`, {
    lines: [{ offer: "otter-tee", colour: "sand", size: "M", quantity: 1 }],
  });
  const { presses } = (await crew.get<QueueView>(`${base}/queue`)).body;
  // Presses everything that reaches the presses in three rounds; then each has one garment.
  for (let round = 0; round < 4; round += 1)
    for (const { press } of presses) {
      const { status, body } = await crew.post<{ job: { job: string } }>(`${base}/presses/${press}/pull`);
      if (status === 200 && round < 3) await crew.post(`${base}/jobs/${body.job.job}/pressed`);
    }
  const [first = 0, second = 0] = numbers;
  await crew.post(`${base}/orders/${first}/paid`, { tender: "cash" });
  await crew.post(`${base}/orders/${first}/collected`);
  return {
    fair: fair.fair,
    place: `${fair.fair}/${stall.stall}`,
    crewKey: stall.key,
    organiserKey: fair.key,
    idle: `${fair.fair}/${other.stall}`,
    customers: [[`customer ${fair.fair}/${stall.stall}`, customer]],
    ready: second,
    kept: [
      [`key crew ${fair.fair}/${stall.stall}`, stall.key],
      [`key organiser ${fair.fair}`, fair.key],
    ],
  };
}
