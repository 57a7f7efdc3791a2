import { inCelsius } from "../../maths/units.ts";
import type { MendableFault } from "../../model/basics/faults.ts";
import type { Handling, PressesRequest } from "../../model/planning/presses.ts";
import { type Checks, gatherChecks } from "../request/fault-checks.ts";
import { reader } from "../request/given.ts";
import { USUAL_CURRENCY } from "../request/prices.ts";
import { handlingIndex } from "./press-day.ts";

const MOST_SCENARIOS = 2_000;
const MOST_ASKS = 1_000_000;
const MOST_PRESSES = 8;
const MOST_PEOPLE = 8;
/** There may be many requests: beyond this many faulty ones, the rest are only counted. */
const MOST_ASK_FAULTS = 20;

/** Everything wrong with a request for presses and hands, each with its place and what would mend it. */
export function pressesFaults(request: PressesRequest): readonly MendableFault[] {
  const list = gatherChecks();
  const { scenarios, handling, presses, people } = request;
  const asks = scenarios.reduce((sum, day) => sum + day.length, 0);
  if (scenarios.length === 0 || scenarios.length > MOST_SCENARIOS)
    list.add(["scenarios"], `There are ${scenarios.length} scenarios`, `give from 1 to ${MOST_SCENARIOS}`);
  if (asks > MOST_ASKS) list.add(["scenarios"], `There are ${asks} asks in all`, `give at most ${MOST_ASKS}`);
  list.between(
    ["closesAtSeconds"],
    request.closesAtSeconds,
    60,
    7 * 24 * 3600,
    "The time from opening to closing",
  );
  if (handling.length === 0 || handling.length > 20)
    list.add(["handling"], `There are ${handling.length} ways of handling`, "give from 1 to 20");
  if (presses.length === 0) list.add(["presses"], "There are no presses", "name at least one platen kind");
  if (list.found().length > 0) return list.found();

  handling.forEach((row, index) => {
    handlingFaults(list, index, row);
  });
  list.distinct(
    handling.map(({ platen, settings }, index) => [["handling", index, "settings"], `${platen} ${settings}`]),
    "Handling",
  );
  const money = reader(request.currency ?? USUAL_CURRENCY, list);
  list.distinct(
    presses.map(({ platen }, index) => [["presses", index, "platen"], platen]),
    "Platen kind",
  );
  presses.forEach((row, index) => {
    list.between(["presses", index, "most"], row.most, 1, MOST_PRESSES, `The most ${row.platen} presses`);
    list.between(["presses", index, "now"], row.now, 1, row.most, `The ${row.platen} presses planned`);
    for (const sum of ["cost", "power", "earns", "spoils"] as const)
      if (row[sum] !== undefined) money.money(row[sum], ["presses", index, sum]);
    if (!handling.some(({ platen }) => platen === row.platen))
      list.add(["presses", index], `No handling is given for ${row.platen} presses`, "add a row to handling");
  });
  list.between(["people", "most"], people.most, 1, MOST_PEOPLE, "The most people");
  list.between(["people", "now"], people.now, 1, people.most, "The people planned");
  if (people.hourlyWage !== undefined) money.money(people.hourlyWage, ["people", "hourlyWage"]);
  list.between(["handVariation"], request.handVariation, 0, 2, "The variation of hands");
  list.between(["spoilage"], request.spoilage, 0, 0.5, "The share spoiled");
  list.between(["holdBackSeconds"], request.holdBackSeconds, 0, 7200, "The time a job may be held back");
  list.between(["heatingCelsiusPerMinute"], request.heatingCelsiusPerMinute, 0.5, 200, "The pace of heating");
  list.between(["coolingCelsiusPerMinute"], request.coolingCelsiusPerMinute, 0.5, 200, "The pace of cooling");
  list.between(
    ["patience", "medianSeconds"],
    request.patience?.medianSeconds,
    1,
    86_400,
    "The median patience",
  );
  list.between(["patience", "variation"], request.patience?.variation, 0, 5, "The variation of patience");
  askFaults(list, request);
  return list.found();
}

function handlingFaults(list: Checks, index: number, row: Handling): void {
  const place = ["handling", index];
  const times = [
    "loadSeconds",
    "prePressSeconds",
    "placeSeconds",
    "peelSeconds",
    "unloadSeconds",
    "foldSeconds",
  ] as const;
  for (const time of times) list.between([...place, time], row[time], 0, 3600, `${time} of ${row.settings}`);
  if (row.dwellSeconds.length === 0 || row.dwellSeconds.length > 4)
    list.add(
      [...place, "dwellSeconds"],
      `${row.settings} is pressed ${row.dwellSeconds.length} times`,
      "give one dwell for each time it is pressed, at most 4",
    );
  row.dwellSeconds.forEach((dwell, nth) => {
    list.between([...place, "dwellSeconds", nth], dwell, 0, 600, `The dwell of ${row.settings}`);
  });
  list.between(
    [...place, "temperature", "value"],
    inCelsius(row.temperature),
    20,
    260,
    `The temperature of ${row.settings} in °C`,
  );
}

function askFaults(list: Checks, { scenarios, handling, presses, closesAtSeconds }: PressesRequest): void {
  let wrong = 0;
  scenarios.forEach((asks, scenario) => {
    asks.forEach((ask, index) => {
      const { atSeconds, platen, garments, settings, patienceSeconds = 0 } = ask;
      const fault =
        atSeconds < 0 || atSeconds > closesAtSeconds
          ? ([
              "atSeconds",
              `An ask at ${atSeconds} s is outside opening`,
              `give 0 to ${closesAtSeconds}`,
            ] as const)
          : garments < 1 || garments > 100
            ? (["garments", `An ask for ${garments} garments`, "give from 1 to 100"] as const)
            : patienceSeconds < 0
              ? (["patienceSeconds", "A patience below nothing", "give 0 or more, or leave it out"] as const)
              : !presses.some((row) => row.platen === platen)
                ? (["platen", `No ${platen} press is planned`, "add it to presses"] as const)
                : handlingIndex(ask, handling) < 0
                  ? ([
                      "settings",
                      `No handling called "${settings}" on ${platen}`,
                      "name one from handling",
                    ] as const)
                  : null;
      if (fault === null) return;
      wrong++;
      const [field, detail, mend] = fault;
      if (wrong <= MOST_ASK_FAULTS) list.add(["scenarios", scenario, index, field], detail, mend);
    });
  });
  if (wrong > MOST_ASK_FAULTS)
    list.add(
      ["scenarios"],
      `${wrong - MOST_ASK_FAULTS} more asks are wrong in the same ways`,
      "mend them alike",
    );
}
