import { type PowerLoad, PowerPlan, PowerRequest, type SiteCircuit } from "../../src/model/planning/power.ts";
import { planPower } from "../../src/planning/power/power.ts";

/** Loads and circuits that the tests of the power plan are made of. */

export const press = (load: string, watts: number, more: Partial<PowerLoad> = {}): PowerLoad => ({
  load,
  kind: "press",
  watts,
  volts: 120,
  ...more,
});
export const lamp = (load: string, watts: number): PowerLoad => ({ load, kind: "light", watts, volts: 120 });
export const circuit = (name: string, breakerAmps: number, volts = 120): SiteCircuit => ({
  circuit: name,
  volts,
  breakerAmps,
});

export const usual: PowerRequest = {
  region: "north-america",
  hours: 9,
  loads: [press("press-a", 1800), press("press-b", 1500), lamp("lights", 240)],
  circuits: [circuit("A", 20), circuit("B", 20), circuit("C", 15)],
};

export function planned(request: PowerRequest): PowerPlan {
  const answer = planPower(PowerRequest.parse(request));
  if (!answer.ok) throw new Error(JSON.stringify(answer.refusal));
  return PowerPlan.parse(answer.value);
}
