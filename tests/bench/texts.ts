/** A thousand customers by text through a gateway on a bad day, the runtime killed twice: nothing lost, nothing twice. */
import { badness, faultsOf } from "../faults/texts/account.ts";
import { textRush } from "../faults/texts/rush.ts";
import type { Bench, Figure } from "./figure.ts";

const CUSTOMERS = 1000;

async function measure(): Promise<readonly Figure[]> {
  const rush = await textRush({ customers: CUSTOMERS, seed: 1, atOnce: 60 });
  try {
    const faults = await faultsOf(rush);
    for (const fault of faults.slice(0, 20)) console.error(fault);
    const { texts, again } = badness(rush);
    const figure = (name: string, value: number, unit: string, goal: Figure["goal"] = null): Figure => ({
      bench: "texts",
      name,
      figure: value,
      unit,
      goal,
    });
    return [
      figure("orders or texts lost, doubled or stuck", faults.length, "faults", { atMost: 0 }),
      figure("customers", CUSTOMERS, "customers"),
      figure("texts the gateway took", texts, "texts"),
      figure("texts it was handed again after losing its reply", again, "texts"),
      figure("time from the first text to the last", rush.seconds, "s"),
      figure("texts a second", texts / rush.seconds, "/s"),
    ];
  } finally {
    await rush.stop();
  }
}

export const bench: Bench = { name: "texts", run: measure };
