/** Another garment in place of one that nothing is there for, at the same price, in the same order. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { wrongStage } from "../../../../model/orders/refusal.ts";
import { lineOf } from "../../../state/orders.ts";
import type { StallEvent } from "../../../state/shapes/event.ts";
import type { StallState } from "../../../state/state.ts";
import { coloursOf, freeOf, leftOf, lineFor, offerParts, sizesOf } from "../../../stock/offers.ts";
import { accept, askMarks, type Decision, type Of, refuse } from "../../commands.ts";

/**
 * Replaces every short garment of one kind in an order by another of the same price, all or none. Refused if the order
 * is not short of it, if the price differs, or if too few are left.
 */
export function takenInstead(
  state: StallState,
  menu: Menu,
  { number, wanted, instead, byCustomer }: Of<"taken-instead">,
): Decision {
  const order = state.order(number);
  if (order === undefined || (byCustomer !== undefined && order.customer !== byCustomer))
    return refuse({ code: "no-such-order", number });
  const short = order.jobs.filter((job) => {
    const { offer, colour, size } = lineOf(order, job);
    return (
      job.stage === "short" && offer === wanted.offer && colour === wanted.colour && size === wanted.size
    );
  });
  const [first] = short;
  if (first === undefined) return refuse(wrongStage(`order ${number}`, "not short of that", "short of it"));
  const found = lineFor(menu, { ...instead, quantity: 1 }, 0);
  if (!found.ok) return refuse(found.refusal);
  const line = found.value;
  if (line.each !== lineOf(order, first).each)
    return refuse(wrongStage("what was picked", "of another price", "of the price of what is short"));
  const choice = offerParts(menu, line.offer);
  const colour = choice && coloursOf(choice).find(({ id }) => id === line.colour);
  const size = choice && sizesOf(choice).find(({ id }) => id === line.size);
  if (choice === undefined || colour === undefined || size === undefined)
    throw new Error("a line was made of a garment that is not on the menu");
  if (freeOf(state, choice, colour, size) < short.length)
    return refuse({
      code: "sold-out",
      offer: line.offer,
      colour: line.colour,
      size: line.size,
      left: leftOf(state, choice),
    });
  const asked: StallEvent = {
    type: "asked",
    ...instead,
    garments: short.length,
    unmet: null,
    ...askMarks({ first: false, instead: true }, 0),
  };
  return accept(asked, ...short.map(({ n }): StallEvent => ({ type: "taken-instead", number, n, line })));
}
