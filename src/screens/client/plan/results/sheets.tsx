/** @jsxImportSource preact */
/** Gang sheets: what to order, how good it is, and each layout drawn to scale. */
import type { SheetPlan } from "../../../../model/planning/sheets.ts";
import { cutList } from "../../../../planning/sheets/cut-list.ts";
import { drawLayout } from "../../../../planning/sheets/drawing.ts";
import { inMoney, inPercent } from "../../../../planning/words/amounts.ts";
import { Folded, Sentences, Table } from "../figures.tsx";
import { Layout } from "../layout.tsx";
import { CsvButton, PrintButton } from "../printing.tsx";

type Props = { readonly plan: SheetPlan; readonly names: ReadonlyMap<string, string> };

export function SheetOrder({ plan, names }: Props) {
  const sum = (minor: number) => inMoney(minor, plan.currency);
  const named = (id: string) => names.get(id) ?? id;
  const { bound, oneDesignASheet: plain, cost } = plan;
  const good = bound.proven
    ? "No plan does better: this is proven."
    : bound.measure === "cost"
      ? `The transfers alone would fill sheets for ${sum(bound.limit)}; what does not fit together costs the rest.`
      : `No plan can be worth more than ${Math.round(bound.limit)}; this one is within ${inPercent(bound.gap)} of that.`;
  const saving =
    plain === null
      ? []
      : [
          `One design a sheet would take ${plain.sheets} sheets for ${sum(plain.cost)}: ganging saves ${plain.savedSheets} sheets and ${sum(plain.savedMoney)}.`,
        ];
  return (
    <>
      <p class="verdict">{`Order ${plan.sheets} sheets in ${plan.layouts.length} ${plan.layouts.length === 1 ? "layout" : "layouts"} for ${sum(cost.total)}.`}</p>
      <Sentences each={[good, ...saving, ...plan.notes]} />
      <Table
        caption="Transfers the sheets give"
        columns={["Design", "Wanted", "Given", "Spare", "Missing"]}
        rows={plan.transfers.map(({ design, wanted, made, spare, missing }) => [
          named(design),
          ...[wanted, made, spare, missing].map(String),
        ])}
      />
      <div class="row no-print">
        <CsvButton words="Save the cut list (CSV)" name="cut-list.csv" csv={() => cutList(plan, names)} />
        <PrintButton words="Print at true size" />
      </div>
      {plan.layouts.map((layout) => (
        <Layout key={layout.layout} svg={drawLayout(layout, names)}>
          <figcaption>
            {`Layout ${layout.layout}: ${layout.copies} copies at ${sum(layout.pricePerSheet)}, ${inPercent(layout.fill)} of the sheet printed.`}
            {layout.room.length === 0 ? null : <RoomLeft room={layout.room} named={named} />}
          </figcaption>
        </Layout>
      ))}
    </>
  );
}

type RoomProps = Pick<SheetPlan["layouts"][number], "room"> & { readonly named: (id: string) => string };

/** Pieces that would still fit on the sheet, each kind once. */
function RoomLeft({ room, named }: RoomProps) {
  const each = room.map(
    ({ design, use, width, height }) =>
      `${named(design)} at ${use === "pocket" ? "pocket" : "cap-front"} size, ${width.toFixed(2)} × ${height.toFixed(2)} in`,
  );
  return (
    <Folded summary="In the room left, one of these would fit">
      <Sentences each={[...new Set(each)]} />
    </Folded>
  );
}
