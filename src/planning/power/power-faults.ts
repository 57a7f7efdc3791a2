import { inMetres } from "../../maths/units.ts";
import type { MendableFault } from "../../model/basics/faults.ts";
import type { PowerLoad, PowerRequest, SiteCircuit } from "../../model/planning/power.ts";
import { type Checks, gatherChecks } from "../request/fault-checks.ts";
import type { FaultPath } from "../request/faults.ts";
import { reader } from "../request/given.ts";
import { USUAL_CURRENCY } from "../request/prices.ts";
import { listed, round } from "../words/phrases.ts";
import { REGION_RULES, type RegionRules } from "../words/region-rules.ts";
import { generatorFaults } from "./generator-faults.ts";
import { powerFactorOf, socketVoltages, socketVoltsFor } from "./loads.ts";
import { CORD_SIZES } from "./wire.ts";

const MOST_LOADS = 60;
const MOST_CIRCUITS = 60;
/** The most that stated watts may differ from volts times amps. */
const PLATE_AGREES = 0.1;
const MOST_METRES = 150;

/** Everything wrong with a power request, each with its place and what would mend it. */
export function powerFaults(request: PowerRequest): readonly MendableFault[] {
  const list = gatherChecks();
  const rules = REGION_RULES[request.region];
  const { loads, circuits, offered = [], generator } = request;
  list.between(["hours"], request.hours, 0.25, 48, "The length of the day in hours");
  if (loads.length === 0)
    list.add(["loads"], "There are no loads.", "List at least one press, lamp or till.");
  if (loads.length > MOST_LOADS)
    list.add(
      ["loads"],
      `There are ${loads.length} loads.`,
      `List at most ${MOST_LOADS}; put small ones together.`,
    );
  if (circuits.length > MOST_CIRCUITS)
    list.add(["circuits"], `There are ${circuits.length} circuits.`, `List at most ${MOST_CIRCUITS}.`);
  if (list.found().length > 0) return list.found();

  const money = reader(request.currency ?? USUAL_CURRENCY, list);
  circuits.forEach((circuit, index) => {
    kindFaults(list, ["circuits", index], circuit);
    boxFaults(list, ["circuits", index, "box"], circuit);
  });
  offered.forEach((kind, index) => {
    kindFaults(list, ["offered", index], kind);
    if (kind.price !== undefined) money.money(kind.price, ["offered", index, "price"]);
  });
  list.distinct(
    circuits.map(({ circuit }, index) => [["circuits", index, "circuit"], circuit] as const),
    "Circuit",
  );
  list.distinct(
    loads.map(({ load }, index) => [["loads", index, "load"], load] as const),
    "Load",
  );
  if (generator !== undefined) generatorFaults(list, generator, circuits.length);
  const known = socketVoltages([...circuits, ...offered]);
  const sockets = known.length > 0 ? known : rules.volts;
  loads.forEach((load, index) => {
    plateFaults(list, ["loads", index], load, sockets);
    cordFaults(list, ["loads", index, "cord"], load.cord, rules);
  });
  return list.found();
}

function kindFaults(
  list: Checks,
  place: FaultPath,
  { volts, breakerAmps }: { volts: number; breakerAmps: number },
): void {
  list.between([...place, "volts"], volts, 90, 260, "The voltage of a circuit");
  if (breakerAmps === 0)
    list.add(
      [...place, "breakerAmps"],
      "A breaker of 0 A lets nothing through.",
      "Give the amps printed on the breaker.",
    );
  else list.between([...place, "breakerAmps"], breakerAmps, 1, 125, "The breaker of a circuit, in amps,");
}

const MOST_BOX_OUTLETS = 12;

function boxFaults(list: Checks, place: FaultPath, { breakerAmps, box }: SiteCircuit): void {
  if (box === undefined) return;
  list.between([...place, "outlets"], box.outlets, 1, MOST_BOX_OUTLETS, "The outlets used of a box");
  list.between([...place, "breakerAmps"], box.breakerAmps, 1, 125, "The breakers of a box, in amps,");
  if (box.breakerAmps > breakerAmps)
    list.add(
      [...place, "breakerAmps"],
      `The box has breakers of ${box.breakerAmps} A on a circuit of ${breakerAmps} A.`,
      "Give the amps printed on the box's own breakers; leave the box out if it has none.",
    );
}

function plateFaults(list: Checks, place: FaultPath, load: PowerLoad, sockets: readonly number[]): void {
  const { watts, amps, volts } = load;
  if (watts === undefined && amps === undefined)
    list.add(
      place,
      `${load.load} has neither watts nor amps.`,
      "Copy one of them from the specification plate.",
    );
  const good =
    list.between([...place, "watts"], watts, 0.1, 30_000, `The wattage of ${load.load}`) &&
    list.between([...place, "amps"], amps, 0.001, 125, `The current of ${load.load}`);
  list.between(
    [...place, "startingWatts"],
    load.startingWatts,
    0,
    100_000,
    `The starting wattage of ${load.load}`,
  );
  list.between([...place, "powerFactor"], load.powerFactor, 0.3, 1, `The power factor of ${load.load}`);
  list.between([...place, "plugAmps"], load.plugAmps, 1, 125, `The plug of ${load.load}, in amps,`);
  list.between(
    [...place, "warmUpMinutes"],
    load.warmUpMinutes,
    0,
    240,
    `The warm-up of ${load.load} in minutes`,
  );
  list.between([...place, "holdingShare"], load.holdingShare, 0, 1, `The holding share of ${load.load}`);
  if (volts === undefined) {
    const guess =
      good && watts !== undefined && amps !== undefined
        ? ` (watts over amps makes ${round(watts / amps)} V)`
        : "";
    list.add([...place, "volts"], `${load.load} has no voltage.`, `Copy the volts from its plate${guess}.`);
    return;
  }
  if (typeof volts !== "number" && volts.from > volts.to) {
    list.add(
      [...place, "volts"],
      `${load.load} runs from ${volts.from} V down to ${volts.to} V.`,
      "Put the lower voltage first.",
    );
    return;
  }
  const ends = typeof volts === "number" ? [volts] : [volts.from, volts.to];
  if (!ends.every((end) => list.between([...place, "volts"], end, 90, 260, `The voltage of ${load.load}`)))
    return;
  if (socketVoltsFor(volts, sockets).length === 0)
    list.add(
      [...place, "volts"],
      `${load.load} is made for ${ends.join(" to ")} V, and the circuits are of ${listed(sockets.map(String))} V.`,
      "Add a circuit of its voltage to those given or offered, or bring a machine made for this supply; do not use an adapter plug.",
    );
  if (!good || watts === undefined || amps === undefined || typeof volts !== "number") return;
  const made = amps * volts * powerFactorOf(load);
  // A motor's plate may leave its power factor out: then watts below volts x amps are as they should be.
  const below = load.kind === "motor" && load.powerFactor === undefined ? 0 : made * (1 - PLATE_AGREES);
  const above =
    (load.kind === "motor" && load.powerFactor === undefined ? amps * volts : made) * (1 + PLATE_AGREES);
  if (watts < below - 1e-9 || watts > above + 1e-9)
    list.add(
      [...place, "watts"],
      `${load.load}: ${watts} W is more than 10 % from ${amps} A x ${volts} V${load.powerFactor === undefined ? "" : ` x ${load.powerFactor}`} = ${round(made)} W.`,
      "Read the plate again; leave out the figure that is not on it.",
    );
}

function cordFaults(list: Checks, place: FaultPath, cord: PowerLoad["cord"], rules: RegionRules): void {
  if (cord === undefined) return;
  const ends = [
    ["distance", cord.distance],
    ["length", cord.length],
  ] as const;
  let good = true;
  for (const [name, length] of ends) {
    if (length === undefined) continue;
    const metres = inMetres(length);
    if (metres > 0 && metres <= MOST_METRES) continue;
    good = false;
    list.add(
      [...place, name, "value"],
      `The ${name} of the cord is ${length.value} ${length.unit}.`,
      `Give a length above 0 and up to ${MOST_METRES} m (${round(MOST_METRES / 0.3048)} ft).`,
    );
  }
  if (good && cord.length !== undefined && inMetres(cord.length) < inMetres(cord.distance) - 1e-9)
    list.add(
      [...place, "length"],
      `The cord of ${cord.length.value} ${cord.length.unit} is shorter than the distance of ${cord.distance.value} ${cord.distance.unit}.`,
      "Take one longer cord, not two in a row, or ask for a socket nearer by.",
    );
  const sizes = CORD_SIZES[rules.cordSystem].map(({ size }) => size);
  if (cord.size !== undefined && !sizes.includes(cord.size))
    list.add(
      [...place, "size"],
      `No cord size is called "${cord.size}" here.`,
      `Write one of ${listed(sizes)}.`,
    );
}
