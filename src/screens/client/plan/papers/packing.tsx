/** @jsxImportSource preact */
/** The packing list and the questions of a plan: drawn with boxes to tick and lines to write on, and as CSV. */

import { Fragment } from "preact";
import { csvOf } from "../../../../model/basics/csv.ts";
import type { OrganiserSheet } from "../../../../model/planning/organiser-sheet.ts";
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import type { PowerPlan } from "../../../../model/planning/power.ts";
import { spelt } from "../../kit/spelling.ts";
import { about, Folded } from "../figures.tsx";
import type { Names } from "../groups/names.ts";

/** One heading of the packing list with its lines; `pieces` is null for a thing that is not counted. */
export type Packed = {
  readonly title: string;
  readonly lines: readonly { readonly what: string; readonly pieces: number | null }[];
};

/** Common practice, no source. */
const EQUIPMENT = [
  "ground-fault protection, if the site's sockets have none",
  "cable ramps and tape",
  "fire extinguisher",
  "first-aid kit with burn dressings",
  "heat-proof gloves",
  "cover sheets and a spare platen pad",
  "cutter and rule",
  "lint roller",
  "tent and weights for each leg",
  "tables, rack and counter",
  "float in small change, cash box",
  "tablets, chargers, power bank",
  "bags, tags and pens",
  "signs, menu and poster",
  "permit and insurance papers",
] as const;

/** What has to be bought, then what goes into the vehicle: stock by carton, and what the stall works with. */
export function packingOf(
  { bring, cartons, currency }: Plan,
  names: Names,
  power: PowerPlan | null,
): readonly Packed[] {
  const gear = [
    ...(power?.circuits.flatMap(({ loads }) => loads.map(({ load }) => load)) ?? ["presses", "till"]),
    ...(power?.cords.map(({ says }) => says.replace(/^For (.*?), (.*?) is .*$/, "cord for $1: $2")) ?? [
      "cords",
    ]),
    ...EQUIPMENT,
  ];
  const bought = bring.shopping
    .filter(({ buy }) => buy > 0)
    .map(({ item, kind, buy, owned }) => {
      const what = pieceWords(kind === "transfer" ? `transfer ${item}` : item, names);
      return { what: owned > 0 ? `${what} (${owned} owned)` : what, pieces: buy };
    });
  return [
    { title: `To buy, ${about(bring.outlay, currency)} in all`, lines: bought },
    ...cartons.map(({ carton, lines, pieces }) => ({
      title: `${carton}: ${pieces} pieces`,
      lines: lines.map(({ what, pieces: count }) => ({ what: pieceWords(what, names), pieces: count })),
    })),
    { title: "What the stall works with", lines: [...new Set(gear)].map((what) => ({ what, pieces: null })) },
  ];
}

/** "tee.black.S" is "Tee, black, S", and "transfer heron" is "Heron at dusk, transfer". */
function pieceWords(what: string, names: Names): string {
  const named = (kind: keyof Names, id: string): string => names[kind].get(id) ?? id;
  const design = /^transfer (.+)$/.exec(what)?.[1];
  if (design !== undefined) return `${named("designs", design)}, transfer`;
  const [offer = "", colour, size] = /^(\S+) (\S+) (\S+), decorated$/.exec(what)?.slice(1) ?? [];
  if (offer !== "") return `${named("offers", offer)}, ${colour}, ${size}, printed`;
  const [first = "", ...rest] = what.split(".");
  return [named("blanks", first), ...rest].join(", ");
}

/** What to buy, and what the stall works with; each carton between them under one line on a screen. */
export function Packing({ packed }: { readonly packed: readonly Packed[] }) {
  const drawn = (each: readonly Packed[]) => each.map((one) => <Ticked key={one.title} {...one} />);
  const cartons = packed.slice(1, -1);
  return (
    <>
      {drawn(packed.slice(0, 1))}
      {cartons.length === 0 ? null : <Folded summary="Carton by carton">{drawn(cartons)}</Folded>}
      {drawn(packed.slice(-1))}
    </>
  );
}

const Ticked = ({ title, lines }: Packed) => (
  <>
    <h4>{title}</h4>
    <ul class="ticks">
      {lines.map(({ what, pieces }) => (
        <li key={what}>
          <span class="tick" aria-hidden="true" />
          {pieces === null ? what : `${pieces} × ${what}`}
        </li>
      ))}
    </ul>
  </>
);

export const packedCsv = (packed: readonly Packed[]): string =>
  csvOf(
    [
      ["where", ({ title }) => title],
      ["what", ({ what }) => what],
      ["pieces", ({ pieces }) => pieces],
      ["packed", () => ""],
    ],
    packed.flatMap(({ title, lines }) => lines.map((line) => ({ title, ...line }))),
  );

/** Questions to print and take along, those the result hangs on most first. */
export function Questions({ plan: { questions } }: { readonly plan: Plan }) {
  const askers = [...new Set(questions.map(({ ask }) => ask))];
  return askers.map((ask) => (
    <Fragment key={ask}>
      <h4>{spelt(`Ask: ${ask}`)}</h4>
      <ol class="questions">
        {questions
          .filter((question) => question.ask === ask)
          .map(({ question, why }) => (
            <li key={question}>
              <p>{spelt(question)}</p>
              <p class="small">{why}</p>
              <p class="blank-line" />
            </li>
          ))}
      </ol>
    </Fragment>
  ));
}

export const questionsCsv = ({ questions }: Plan): string =>
  csvOf(
    [
      ["ask", ({ ask }) => spelt(ask)],
      ["question", ({ question }) => spelt(question)],
      ["why", ({ why }) => why],
      ["answer", () => ""],
    ],
    questions,
  );

/** What the stall needs, what it has to know, and its day: a row for each sentence. */
export const organiserCsv = ({ pitch, power, questions, timetable }: OrganiserSheet): string =>
  csvOf(
    [
      ["part", ({ part }) => part],
      ["about", ({ about }) => about],
      ["what", ({ what }) => spelt(what)],
      ["answer", () => ""],
    ],
    [
      ...pitch.map((what) => ({ part: "need", about: "pitch", what })),
      ...power.map((what) => ({ part: "need", about: "power", what })),
      ...questions.map(({ about, ask }) => ({ part: "question", about, what: ask })),
      ...timetable.map(({ at, what }) => ({ part: "our day", about: at, what })),
    ],
  );
