/** A payment as it is sent, without what was left out of it. */
import type { z } from "zod";
import type { Payment } from "../../model/orders/taps.ts";
import type { PaymentTold } from "../../stall/rules/commands.ts";

type Sent = Omit<z.infer<typeof Payment>, "by" | "undo">;

/** What the stall is told of it; an amount beside parts says nothing. */
export const paymentFrom = ({ tender, amount, parts, tip }: Sent): PaymentTold => ({
  tender,
  ...(amount === undefined || parts !== undefined ? {} : { amount }),
  ...(parts === undefined ? {} : { parts }),
  ...(tip === undefined ? {} : { tip }),
});
