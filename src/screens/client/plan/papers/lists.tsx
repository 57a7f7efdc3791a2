/** @jsxImportSource preact */
/** The papers of a plan, drawn to be printed: orders, packing list, questions. */
import { Fragment } from "preact";
import type { OrganiserSheet } from "../../../../model/planning/organiser-sheet.ts";
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import type { PowerPlan } from "../../../../model/planning/power.ts";
import type { SheetPlan } from "../../../../model/planning/sheets.ts";
import { drawLayout } from "../../../../planning/sheets/drawing.ts";
import { inMoney } from "../../../../planning/words/amounts.ts";
import { dayInWords } from "../../../../time/day-in-words.ts";
import { spelt } from "../../kit/spelling.ts";
import type { Day } from "../day/first.ts";
import { Cautions, Folded, Sentences, Table, unique } from "../figures.tsx";
import { namesIn, wordAt } from "../groups/names.ts";
import { Layout } from "../layout.tsx";
import { Acts } from "../printing.tsx";
import { blankLines, blanksCsv, layoutLines, transferLines, transfersCsv } from "./orders.ts";
import { organiserCsv, Packing, packedCsv, packingOf, Questions, questionsCsv } from "./packing.tsx";

/** The head of every paper: its title, the stall, the fair and the day. */
function Head({ day, what }: { readonly day: Day; readonly what: string }) {
  const date = wordAt(day.plan, "#/day");
  const fair = wordAt(day.plan, "#/name", "the fair");
  const stall = wordAt(day.organiser, "#/stall", "Our stall");
  return <h3>{`${what}: ${stall}, ${fair}${date === "" ? "" : `, ${dayInWords(date)}`}`}</h3>;
}

type PlanPaper = { readonly plan: Plan; readonly day: Day };

/** Style by colour by size, as a supplier's sheet has them, with packs, price and total. */
export function BlankOrder({ plan, day }: PlanPaper) {
  const lines = blankLines(plan, day.plan);
  const total = lines.reduce((sum, line) => sum + line.total, 0);
  const pieces = lines.reduce((sum, line) => sum + line.pieces, 0);
  return (
    <>
      <Head day={day} what="Blanks to order" />
      {unique(lines.map(({ blank }) => blank)).map((blank) => {
        const of = lines.filter((line) => line.blank === blank);
        const sizes = unique(of.map(({ size }) => size));
        const style = of[0]?.styleNumber ?? "";
        return (
          <Table
            key={blank}
            caption={`${blank}${style === "" ? "" : `, style ${style}`}`}
            columns={["Colour", ...sizes, "Pieces", "Total"]}
            rows={unique(of.map(({ colour }) => colour)).map((colour) => {
              const row = of.filter((line) => line.colour === colour);
              return [
                colour,
                ...sizes.map((size) => {
                  const line = row.find((one) => one.size === size);
                  if (line === undefined) return "–";
                  const packs = line.packOf === 1 ? "" : `, ${line.packs} × ${line.packOf}`;
                  return `${line.pieces}${packs} at ${inMoney(line.each, plan.currency)}`;
                }),
                String(row.reduce((sum, line) => sum + line.pieces, 0)),
                inMoney(
                  row.reduce((sum, line) => sum + line.total, 0),
                  plan.currency,
                ),
              ];
            })}
          />
        );
      })}
      <p class="verdict">{`In all ${pieces} pieces for ${inMoney(total, plan.currency)}, at the prices typed.`}</p>
      <Acts print="Print the order" name="blanks-to-order.csv" csv={() => blanksCsv(lines, plan.currency)} />
    </>
  );
}

type SheetsPaper = {
  readonly sheets: SheetPlan;
  readonly day: Day;
  readonly names: ReadonlyMap<string, string>;
};

export function TransferOrder({ sheets, day, names }: SheetsPaper) {
  const lines = transferLines(sheets, day.sheets, day.plan);
  const layouts = layoutLines(sheets, day.sheets, names);
  const sum = (minor: number) => inMoney(minor, sheets.currency);
  return (
    <>
      <Head day={day} what="Transfers to order" />
      <Table
        caption="Layouts"
        columns={["Layout", { words: "Sheet" }, { words: "On each" }, "Copies", "Each", "Total"]}
        rows={layouts.map(({ name, size, on, copies, each, total }) => [
          name,
          size,
          on.map(({ design, pieces }) => `${pieces} × ${design}`).join(", "),
          copies === null ? "–" : String(copies),
          each === null ? "–" : sum(each),
          sum(total),
        ])}
        stacked
      />
      <Table
        caption="Designs on them"
        columns={["Design", { words: "Art" }, { words: "File" }, "Pieces"]}
        rows={lines.map(({ design, file, size, pieces }) => [
          design,
          size,
          file === "" ? "–" : file,
          String(pieces),
        ])}
      />
      <p class="verdict">{`In all ${sum(sheets.cost.total)}.`}</p>
      <Acts
        print="Print the order"
        name="transfers-to-order.csv"
        csv={() => transfersCsv(layouts, lines, sheets.currency)}
      />
      {sheets.layouts.map((layout) => (
        <Layout key={layout.layout} svg={drawLayout(layout, names)}>
          <figcaption>{`Layout ${layout.layout}: ${layout.copies} copies.`}</figcaption>
        </Layout>
      ))}
    </>
  );
}

/** Everything that goes into the vehicle: stock by carton, and what the stall works with. */
export function PackingList({ plan, day, power }: PlanPaper & { readonly power: PowerPlan | null }) {
  const packed = packingOf(plan, namesIn(day.plan), power);
  return (
    <>
      <Head day={day} what="Packing list" />
      <Packing packed={packed} />
      <Acts print="Print the packing list" name="packing-list.csv" csv={() => packedCsv(packed)} />
    </>
  );
}

export const QuestionList = ({ plan, day }: PlanPaper) => (
  <>
    <Head day={day} what="Questions to ask before you pay for the pitch" />
    <Questions plan={plan} />
    <Acts print="Print the questions" name="questions.csv" csv={() => questionsCsv(plan)} />
  </>
);

/** The page to hand to the organiser. */
export function OrganiserPaper({ sheet }: { readonly sheet: OrganiserSheet }) {
  const about = unique(sheet.questions.map((question) => question.about));
  return (
    <>
      <h3>{sheet.title}</h3>
      {sheet.pitch.length === 0 ? null : (
        <>
          <h4>Pitch</h4>
          <Sentences each={sheet.pitch} />
        </>
      )}
      {sheet.power.length === 0 ? null : (
        <>
          <h4>Power</h4>
          <Sentences each={sheet.power} />
        </>
      )}
      <Folded summary="What we have to know">
        <dl class="asks">
          {about.map((one) => (
            <Fragment key={one}>
              <dt>{one}</dt>
              {sheet.questions
                .filter((question) => question.about === one)
                .map(({ ask }) => (
                  <dd key={ask}>{spelt(ask)}</dd>
                ))}
            </Fragment>
          ))}
        </dl>
      </Folded>
      <Table
        caption="Our day"
        columns={["At", { words: "What" }]}
        rows={sheet.timetable.map(({ at, what }) => [at, spelt(what)])}
      />
      <Cautions each={sheet.cautions} />
      <Acts print="Print this page" name="organiser-sheet.csv" csv={() => organiserCsv(sheet)} />
    </>
  );
}
