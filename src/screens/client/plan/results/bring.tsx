/** @jsxImportSource preact */
/** What to bring: each blank with colours down and sizes across, the transfers, and what to leave out. */

import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { spelt } from "../../kit/spelling.ts";
import { about, Bar, Folded, odds, Sentences, Table, unique } from "../figures.tsx";

import type { Names } from "../groups/names.ts";

type Line = Plan["bring"]["skus"][number];

type Props = { readonly plan: Plan; readonly names: Names };

export function Bring({ plan: { bring, currency, smallerMenu }, names }: Props) {
  const sum = (minor: number) => about(minor, currency);
  const named = (kind: keyof Names, id: string) => names[kind].get(id) ?? id;
  /** "Tee, size 3XL" or "offer Longtail tee" of what could be left off. */
  const dropped = (drop: string, id: string): string => {
    const [whose = "", choice] = id.split(".");
    const kind = drop === "offer" ? "offers" : drop === "design" ? "designs" : "blanks";
    return choice === undefined
      ? `${drop} ${named(kind, id)}`
      : `${named("blanks", whose)}, ${spelt(drop)} ${choice}`;
  };
  const blanks = unique(bring.skus.map(({ blank }) => blank));
  const limits =
    bring.binding.length === 0 ? "No limit holds the day back." : `Limited by: ${bring.binding.join(", ")}.`;
  return (
    <>
      <p class="verdict">{`${bring.pieces} pieces in ${Math.ceil(bring.cartons)} cartons for ${sum(bring.outlay)}${bring.budgetLeft === null ? "" : `, ${sum(bring.budgetLeft)} of the budget left`}. ${limits}`}</p>
      {blanks.map((blank) => (
        <OfBlank
          key={blank}
          name={named("blanks", blank)}
          lines={bring.skus.filter((line) => line.blank === blank)}
        />
      ))}
      <Table
        caption="Transfers"
        columns={["Design", "Bring", "Asked for, usual day", "Odds of selling out", "One more is worth"]}
        rows={bring.transfers.map((line) => [
          named("designs", line.design),
          String(line.bring),
          String(Math.round(line.asked.p50)),
          odds(line.oddsSoldOut),
          sum(line.oneMore),
        ])}
      />
      {bring.ready.length === 0 ? null : (
        <Table
          caption="Printed ahead"
          columns={["Garment", "Bring", "Printed already", "Odds of selling out", "Odds one comes home"]}
          rows={bring.ready.map(
            ({ offer, colour, size, bring: pieces, owned, oddsSoldOut, oddsComesHome }) => [
              `${named("offers", offer)}, ${colour}, ${size}`,
              String(pieces),
              String(owned),
              odds(oddsSoldOut),
              odds(oddsComesHome),
            ],
          )}
        />
      )}
      <h3>Would a smaller menu do?</h3>
      <Sentences
        each={
          smallerMenu.advice.length === 0
            ? ["No. Leaving any one thing off would cost profit; the first lines of the list cost least."]
            : [
                ...smallerMenu.advice.map((advice) => {
                  const [drop = "", ...id] = advice.split(" ");
                  return dropped(drop, id.join(" "));
                }),
                `Together that changes the expected profit by ${sum(smallerMenu.change)}.`,
              ]
        }
      />
      <Folded summary="Leaving one thing off">
        <Table
          caption="Leaving one thing off"
          columns={["Leave off", "Changes profit by"]}
          rows={smallerMenu.dropOne.map(({ drop, id, change }) => [dropped(drop, id), sum(change)])}
        />
      </Folded>
    </>
  );
}

/** Colours down, sizes across: how many, and how likely they run out. */
function OfBlank({ name, lines }: { readonly name: string; readonly lines: readonly Line[] }) {
  const sizes = unique(lines.map(({ size }) => size));
  const colours = unique(lines.map(({ colour }) => colour));
  const most = Math.max(1, ...lines.map((line) => line.bring));
  const total = lines.reduce((all, line) => all + line.bring, 0);
  return (
    <Table
      caption={`${name}: ${total} to bring`}
      columns={["Colour", ...sizes]}
      rows={colours.map((colour) => [
        colour,
        ...sizes.map((size) => {
          const line = lines.find((one) => one.colour === colour && one.size === size);
          if (line === undefined) return "–";
          return (
            <span key={size} class="stock">
              <strong>{String(line.bring)}</strong>
              <Bar share={line.bring / most} />
              <span class="out">{`out: ${odds(line.oddsSoldOut)}`}</span>
            </span>
          );
        }),
      ])}
    />
  );
}
