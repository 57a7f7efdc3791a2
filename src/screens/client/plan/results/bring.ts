/** What to bring: each blank with colours down and sizes across, the transfers, and what to leave out. */

import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { element } from "../../kit/dom.ts";
import { spelt } from "../../kit/spelling.ts";
import { about, bar, folded, odds, sentences, tableOf, unique } from "../figures.ts";

import type { Names } from "../groups/names.ts";

type Line = Plan["bring"]["skus"][number];

export function drawBring({ bring, currency, smallerMenu }: Plan, names: Names): HTMLElement[] {
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
  return [
    element(
      "p",
      { class: "verdict" },
      `${bring.pieces} pieces in ${Math.ceil(bring.cartons)} cartons for ${sum(bring.outlay)}${bring.budgetLeft === null ? "" : `, ${sum(bring.budgetLeft)} of the budget left`}. ${limits}`,
    ),
    ...blanks.map((blank) =>
      ofBlank(
        named("blanks", blank),
        bring.skus.filter((line) => line.blank === blank),
      ),
    ),
    tableOf(
      "Transfers",
      ["Design", "Bring", "Asked for, usual day", "Odds of selling out", "One more is worth"],
      bring.transfers.map((line) => [
        named("designs", line.design),
        String(line.bring),
        String(Math.round(line.asked.p50)),
        odds(line.oddsSoldOut),
        sum(line.oneMore),
      ]),
    ),
    ...(bring.ready.length === 0
      ? []
      : [
          tableOf(
            "Printed ahead",
            ["Garment", "Bring", "Printed already", "Odds of selling out", "Odds one comes home"],
            bring.ready.map(({ offer, colour, size, bring: pieces, owned, oddsSoldOut, oddsComesHome }) => [
              `${named("offers", offer)}, ${colour}, ${size}`,
              String(pieces),
              String(owned),
              odds(oddsSoldOut),
              odds(oddsComesHome),
            ]),
          ),
        ]),
    element("h3", {}, "Would a smaller menu do?"),
    sentences(
      smallerMenu.advice.length === 0
        ? ["No. Leaving any one thing off would cost profit; the first lines of the list cost least."]
        : [
            ...smallerMenu.advice.map((advice) => {
              const [drop = "", ...id] = advice.split(" ");
              return dropped(drop, id.join(" "));
            }),
            `Together that changes the expected profit by ${sum(smallerMenu.change)}.`,
          ],
    ),
    folded(
      "Leaving one thing off",
      tableOf(
        "Leaving one thing off",
        ["Leave off", "Changes profit by"],
        smallerMenu.dropOne.map(({ drop, id, change }) => [dropped(drop, id), sum(change)]),
      ),
    ),
  ];
}

/** Colours down, sizes across: how many, and how likely they run out. */
function ofBlank(name: string, lines: readonly Line[]): HTMLElement {
  const sizes = unique(lines.map(({ size }) => size));
  const colours = unique(lines.map(({ colour }) => colour));
  const most = Math.max(1, ...lines.map((line) => line.bring));
  const total = lines.reduce((all, line) => all + line.bring, 0);
  return tableOf(
    `${name}: ${total} to bring`,
    ["Colour", ...sizes],
    colours.map((colour) => [
      colour,
      ...sizes.map((size) => {
        const line = lines.find((one) => one.colour === colour && one.size === size);
        if (line === undefined) return "–";
        return element(
          "span",
          { class: "stock" },
          element("strong", {}, String(line.bring)),
          bar(line.bring / most),
          element("span", { class: "out" }, `out: ${odds(line.oddsSoldOut)}`),
        );
      }),
    ]),
  );
}
