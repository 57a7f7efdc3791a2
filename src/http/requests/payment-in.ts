/** A payment as sent, without members that were left out. */
import type { z } from "zod";
import type { Payment } from "../../model/orders/taps.ts";
import type { PaymentGiven } from "../../stall/rules/commands.ts";

type Sent = Omit<z.infer<typeof Payment>, "by" | "undo">;

/** The payment as the stall takes it. If there are parts, an amount beside them is ignored. */
export const paymentFrom = ({ tender, amount, parts, tip }: Sent): PaymentGiven => ({
  tender,
  ...(amount === undefined || parts !== undefined ? {} : { amount }),
  ...(parts === undefined ? {} : { parts }),
  ...(tip === undefined ? {} : { tip }),
});
