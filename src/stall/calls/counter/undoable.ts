/** Which refunds and exchanges of an order's garments can be undone now. */
import { jobId } from "../../../model/basics/ids.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { CrewOrderView } from "../../../model/orders/order.ts";
import { undoGarmentExchanged, undoGarmentRefunded } from "../../rules/decide/changes/undoing.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { StallState } from "../../state/state.ts";
import { garmentName } from "../../stock/offers.ts";

/** Returns each garment with what it is and what was given back for it; undefined without any. */
export function undoableOf(state: StallState, menu: Menu, order: Order): CrewOrderView["undoable"] {
  const { number, jobs, returned = [], exchangeOf } = order;
  const refunded = returned.flatMap(({ job: { n }, line, refund }) => {
    if (refund === undefined || refund.carried === true) return [];
    const command = { type: "undo-garment-refunded", number, jobs: [n] } as const;
    if (undoGarmentRefunded(state, command).refusal !== null) return [];
    const amount = { amount: refund.amount, currency: menu.currency };
    return [{ job: jobId(number, n), act: "refunded" as const, name: garmentName(menu, line), amount }];
  });
  const mayBe = exchangeOf !== undefined || returned.some(({ refund }) => refund === undefined);
  const exchanged = (mayBe ? jobs : []).flatMap(({ n, line }) => {
    const command = { type: "undo-garment-exchanged", number, n } as const;
    const made = order.lines[line];
    if (made === undefined || undoGarmentExchanged(state, menu, command).refusal !== null) return [];
    return [{ job: jobId(number, n), act: "exchanged" as const, name: garmentName(menu, made) }];
  });
  const all = [...refunded, ...exchanged];
  return all.length === 0 ? undefined : all;
}
