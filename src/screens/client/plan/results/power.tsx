/** @jsxImportSource preact */
/** Power: each circuit as a bar with what hangs on it, what to order, cords, warm-up, and always the cautions. */
import type { PowerPlan } from "../../../../model/planning/power.ts";
import { Bar, Cautions, Folded, Sentences, Table } from "../figures.tsx";
import { PrintButton } from "../printing.tsx";

const amps = (value: number): string => `${value.toFixed(1)} A`;

export function Power({ plan }: { readonly plan: PowerPlan }) {
  return (
    <>
      <Cautions each={plan.cautions} />
      <p class="verdict">{plan.fits ? "It fits." : "It does not fit as it is."}</p>
      <p class="order">{plan.order}</p>
      {plan.changes.length === 0 ? null : (
        <>
          <h3>What would make it fit</h3>
          <Sentences each={plan.changes.map(({ says }) => says)} />
        </>
      )}
      {plan.unplaced.length === 0 ? null : (
        <Sentences each={[`Not on any circuit: ${plan.unplaced.join(", ")}.`]} />
      )}
      <Table
        caption="Circuits"
        columns={[
          "Circuit",
          { words: "Receptacle" },
          { words: "Connected" },
          { words: "Load of its breaker" },
          "Room",
        ]}
        rows={plan.circuits.map(
          ({
            circuit,
            volts,
            breakerAmps,
            carriesAmps,
            receptacle,
            ordered,
            loads,
            countedAmps,
            roomAmps,
          }) => [
            `${circuit}: ${volts} V, ${breakerAmps} A${ordered ? ", to order" : ""}`,
            receptacle ?? "ask the electrician",
            loads
              .map(({ load, amps: drawn, alone }) => `${load} ${amps(drawn)}${alone ? " (alone)" : ""}`)
              .join(", ") || "nothing",
            <span key={circuit} class="stock">
              {amps(countedAmps)}
              <Bar share={countedAmps / carriesAmps} />
            </span>,
            amps(roomAmps),
          ],
        )}
        stacked
      />
      {plan.cords.length === 0 ? null : (
        <>
          <h3>Cords</h3>
          <Sentences each={plan.cords.map(({ says }) => says)} />
        </>
      )}
      {plan.generator === null ? null : (
        <>
          <h3>Generator</h3>
          <Sentences each={plan.generator.says} />
        </>
      )}
      {plan.warmUp.together === "does-not-fit" ? (
        <>
          <h3>Warm-up: it does not fit</h3>
          <p>Switch nothing on by this plan until everything fits.</p>
        </>
      ) : (
        <WarmUp {...plan} />
      )}
      {plan.notes.length === 0 ? null : <Sentences each={plan.notes} />}
      <Folded summary="What was checked">
        <Table
          caption="What was checked"
          columns={["Check", { words: "Holds" }, { words: "Rule" }]}
          rows={plan.checks.map(({ holds, says, source }) => [says, holds ? "yes" : "NO", source])}
          stacked
        />
      </Folded>
      <Folded summary="Rules this estimate follows">
        <Sentences each={plan.rules.map(({ rule, source }) => `${rule} (${source})`)} />
      </Folded>
      <PrintButton words="Print the power plan" />
    </>
  );
}

/** Who may switch on everything at once needs no turns. */
function WarmUp({ warmUp }: PowerPlan) {
  const heading =
    warmUp.together === "holds" ? "Warm-up: all may start together" : "Warm-up: never all at once, it trips";
  const turns = (
    <Table
      caption={heading}
      columns={["Minute", { words: "Switch on" }]}
      rows={warmUp.turns.map(({ atMinute, loads }) => [String(Math.round(atMinute)), loads.join(", ")])}
    />
  );
  return warmUp.together === "holds" ? <Folded summary={heading}>{turns}</Folded> : turns;
}
