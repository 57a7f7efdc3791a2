/** @jsxImportSource preact */
/** How many presses and people: each number tried on the same days, the worth of one more, and the busiest hour. */
import type { PressesPlan } from "../../../../model/planning/presses.ts";
import { heatCautions, USUAL_PLATEN_CELSIUS } from "../../../../planning/words/cautions.ts";
import { about, Cautions, Folded, Sentences, Table, whole } from "../figures.tsx";

const minutes = (seconds: number | null): string => (seconds === null ? "–" : `${whole(seconds / 60)} min`);
/** The best ways are in sight, and some more under them. */
const SHOWN = 4;
const MORE = 12;

export function Presses({ plan, currency }: { readonly plan: PressesPlan; readonly currency: string }) {
  const sum = (minor: number) => about(minor, currency);
  const rows = plan.combinations
    .map((combination, at) => ({ ...combination, at }))
    .sort((a, b) => b.earns - a.earns);
  const marks = (at: number) =>
    `${at === plan.best ? " (earns most)" : ""}${at === plan.looked && at !== plan.best ? " (planned now)" : ""}`;
  const table = (caption: string, shown: typeof rows) => (
    <Table
      caption={caption}
      columns={[
        "Presses and people",
        "Earns",
        "Wait, middle",
        "Wait, one in ten longer",
        "Customers who walk",
        "Last garment after closing",
      ]}
      rows={shown.map(({ presses, people, platens, earns, lateMedianSeconds, at }) => [
        `${presses.map(({ platen, presses: count }) => `${count} ${platen}`).join(", ")}; ${people} ${people === 1 ? "person" : "people"}${marks(at)}`,
        sum(earns),
        platens.map(({ medianWaitSeconds }) => minutes(medianWaitSeconds)).join(" / "),
        platens.map(({ ninetiethWaitSeconds }) => minutes(ninetiethWaitSeconds)).join(" / "),
        platens.map(({ walked }) => walked.toFixed(1)).join(" / "),
        minutes(lateMedianSeconds),
      ])}
    />
  );
  return (
    <>
      <Cautions each={heatCautions(USUAL_PLATEN_CELSIUS)} />
      <Sentences
        each={[...plan.says, "Excludes pitch, travel and leftover stock; assumes you never run out."]}
      />
      {plan.oneMore.length === 0 ? null : (
        <Table
          caption="One more"
          columns={["One more", "Earns on the day", "Give or take"]}
          rows={plan.oneMore.map(({ more, earns, standardError }) => [
            more,
            sum(earns),
            sum(Math.abs(2 * standardError)),
          ])}
        />
      )}
      {table(
        `The best of ${rows.length} ways, on ${plan.scenariosUsed} imagined days`,
        rows.filter(({ at }, place) => place < SHOWN || at === plan.looked),
      )}
      <p class="help">
        Where two figures stand side by side they are of the two kinds of press, in the order named.
      </p>
      {rows.length > SHOWN ? (
        <Folded summary="The ways that come next">
          {table("The ways that come next", rows.slice(SHOWN, MORE))}
        </Folded>
      ) : null}
    </>
  );
}
