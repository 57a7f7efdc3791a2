/** Exchanging a garment: the answer is the order in which the other one is made, the same or a new one. */
import { jobParts } from "../../../model/basics/ids.ts";
import type { WriteKey } from "../../../model/basics/write-key.ts";
import type { CrewOrderView } from "../../../model/orders/order.ts";
import type { Answer } from "../../../model/orders/refusal.ts";
import type { Bindings } from "../../../texting/bindings.ts";
import { notePlaced } from "../../messages/notes.ts";
import type { Of } from "../../rules/commands.ts";
import type { Transactions } from "../../transact.ts";
import { crewOrderView } from "../replies.ts";

type Exchanging = Omit<Of<"garment-exchanged">, "chance">;

/** Undoes an exchange; the answer is the order that the garment is in again. */
export function undoExchange(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  command: Of<"undo-garment-exchanged">,
  bindings: Bindings,
): Answer<CrewOrderView> {
  return transactions.command(generation, key, command, (unit, menu, now) => {
    const made = unit.state.anyOrder(command.number);
    const number = made?.exchangeOf === undefined ? command.number : jobParts(made.exchangeOf).number;
    const order = unit.state.anyOrder(number);
    if (order === undefined) throw new Error(`order ${number} is gone after its own command`);
    return crewOrderView(unit, menu, order, now, bindings);
  });
}

/** Exchanges a garment; the answer is the order in which the other one is made: the same, or a new one. */
export function exchange(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  command: Exchanging,
  bindings: Bindings,
): Answer<CrewOrderView> {
  let made = command.number;
  const chance = transactions.chance();
  return transactions.command(generation, key, { ...command, chance }, (unit, menu, now, _, events) => {
    made = events.find((event) => event.type === "placed")?.order.number ?? made;
    const { note } = command.instead;
    if (made !== command.number) notePlaced(unit, made, [{ ...command.instead, quantity: 1 }]);
    else if (note !== undefined) unit.people.noteGarments(made, new Map([[command.n, note]]));
    const order = unit.state.anyOrder(made);
    if (order === undefined) throw new Error(`order ${made} is gone after its own command`);
    return crewOrderView(unit, menu, order, now, bindings);
  });
}
