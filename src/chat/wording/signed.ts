/** Naming the stall in its texts where several send from one number. */

import { named, type Say } from "../fitting/fit.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";

/** The same said with the stall's name before it, unless the name is in it already or goes without saying. */
export function signed(port: OrderingPort, say: Say): Say {
  if (port.sharesNumber !== true) return say;
  return (brevity) => {
    const text = say(brevity);
    const name = named(port.stallName, brevity);
    return text.includes(name) ? text : `${name}: ${text}`;
  };
}
