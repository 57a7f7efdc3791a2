/** Names the stall in its texts if several send from one number. */

import type { Say } from "../fitting/fit.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";

/** The same said with the stall's name before it, unless the name is in it already or goes without saying. */
export function signed(port: OrderingPort, say: Say): Say {
  const { stallName } = port;
  if (port.sharesNumber !== true) return say;
  return (brevity) => {
    const text = say(brevity);
    return text.includes(stallName) ? text : `${stallName}: ${text}`;
  };
}
