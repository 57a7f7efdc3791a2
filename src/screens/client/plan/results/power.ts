/** Power: each circuit as a bar with what hangs on it, what to order, cords, warm-up, and always the cautions. */
import type { PowerPlan } from "../../../../model/planning/power.ts";
import { element } from "../../kit/dom.ts";
import { bar, cautions, folded, sentences, tableOf } from "../figures.ts";
import { printButton } from "../printing.ts";

const amps = (value: number): string => `${value.toFixed(1)} A`;

export function drawPower(plan: PowerPlan): HTMLElement[] {
  return [
    cautions(plan.cautions),
    element("p", { class: "verdict" }, plan.fits ? "It fits." : "It does not fit as it is."),
    element("p", { class: "order" }, plan.order),
    ...(plan.changes.length === 0
      ? []
      : [element("h3", {}, "What would make it fit"), sentences(plan.changes.map(({ says }) => says))]),
    ...(plan.unplaced.length === 0 ? [] : [sentences([`Not on any circuit: ${plan.unplaced.join(", ")}.`])]),
    tableOf(
      "Circuits",
      ["Circuit", { words: "Receptacle" }, { words: "Connected" }, { words: "Load of its breaker" }, "Room"],
      plan.circuits.map(
        ({ circuit, volts, breakerAmps, carriesAmps, receptacle, ordered, loads, countedAmps, roomAmps }) => [
          `${circuit}: ${volts} V, ${breakerAmps} A${ordered ? ", to order" : ""}`,
          receptacle ?? "ask the electrician",
          loads
            .map(({ load, amps: drawn, alone }) => `${load} ${amps(drawn)}${alone ? " (alone)" : ""}`)
            .join(", ") || "nothing",
          element("span", { class: "stock" }, amps(countedAmps), bar(countedAmps / carriesAmps)),
          amps(roomAmps),
        ],
      ),
      "wide stacked",
    ),
    ...(plan.cords.length === 0
      ? []
      : [element("h3", {}, "Cords"), sentences(plan.cords.map(({ says }) => says))]),
    ...(plan.generator === null ? [] : [element("h3", {}, "Generator"), sentences(plan.generator.says)]),
    ...(plan.warmUp.together === "does-not-fit"
      ? [
          element("h3", {}, "Warm-up: it does not fit"),
          element("p", {}, "Switch nothing on by this plan until everything fits."),
        ]
      : [warmUpOf(plan)]),
    ...(plan.notes.length === 0 ? [] : [sentences(plan.notes)]),
    folded(
      "What was checked",
      tableOf(
        "What was checked",
        ["Check", { words: "Holds" }, { words: "Rule" }],
        plan.checks.map(({ holds, says, source }) => [says, holds ? "yes" : "NO", source]),
        "wide stacked",
      ),
    ),
    folded(
      "Rules this estimate follows",
      sentences(plan.rules.map(({ rule, source }) => `${rule} (${source})`)),
    ),
    printButton("Print the power plan"),
  ];
}

/** Who may switch on everything at once needs no turns. */
function warmUpOf({ warmUp }: PowerPlan): HTMLElement {
  const heading =
    warmUp.together === "holds" ? "Warm-up: all may start together" : "Warm-up: never all at once, it trips";
  const turns = tableOf(
    heading,
    ["Minute", { words: "Switch on" }],
    warmUp.turns.map(({ atMinute, loads }) => [String(Math.round(atMinute)), loads.join(", ")]),
  );
  return warmUp.together === "holds" ? folded(heading, turns) : turns;
}
