import { inCelsius, inMetres } from "../../maths/units.ts";
import type { Generator } from "../../model/planning/generator.ts";
import type { Checks } from "../request/fault-checks.ts";

/** Adds the faults of a generator and of its outlets' number. */
export function generatorFaults(list: Checks, generator: Generator, outlets: number): void {
  const { runningWatts, startingWatts, powerFactor, altitude, airTemperature, consumption, tank } = generator;
  list.between(["generator", "powerFactor"], powerFactor, 0.3, 1, "The power factor of the generator");
  if (altitude !== undefined)
    list.between(
      ["generator", "altitude", "value"],
      inMetres(altitude),
      -500,
      5_000,
      "The height of the site, in metres,",
    );
  if (airTemperature !== undefined)
    list.between(
      ["generator", "airTemperature", "value"],
      inCelsius(airTemperature),
      -40,
      60,
      "The heat of the air, in °C,",
    );
  if (outlets === 0)
    list.add(
      ["circuits"],
      "The generator has no outlets.",
      "List its outlets as circuits, with volts and breaker amps.",
    );
  const good =
    list.between(
      ["generator", "runningWatts"],
      runningWatts,
      100,
      100_000,
      "What the generator keeps up, in watts,",
    ) &&
    list.between(
      ["generator", "startingWatts"],
      startingWatts,
      100,
      200_000,
      "What the generator starts, in watts,",
    );
  if (good && startingWatts < runningWatts)
    list.add(
      ["generator", "startingWatts"],
      "Starting watts are below running watts.",
      "Exchange them, or give the running figure for both.",
    );
  consumption.forEach(({ share, rate }, index) => {
    list.between(["generator", "consumption", index, "share"], share, 0, 1.2, "The share of load");
    if (share === 0 && consumption.length === 1)
      list.add(
        ["generator", "consumption", index, "share"],
        "Only the idling consumption is given.",
        "Give it at half or full load.",
      );
    list.between(
      ["generator", "consumption", index, "rate", "value"],
      rate.value,
      0.01,
      200,
      "The fuel burnt in an hour",
    );
  });
  const shares = new Set(consumption.map(({ share }) => share));
  if (shares.size < consumption.length)
    list.add(
      ["generator", "consumption"],
      "Two consumptions are given for one share of load.",
      "Keep one of them.",
    );
  if (tank !== undefined)
    list.between(["generator", "tank", "value"], tank.value, 0.1, 2_000, "The fuel tank");
}
