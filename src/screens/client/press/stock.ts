/** Counting stock, or adding what was brought, without leaving the bench. */
import type { Menu } from "../../../model/catalogue.ts";
import type { StockView } from "../../../model/stock.ts";
import { chosen } from "../crew/choices.ts";
import { pieceName } from "../crew/names.ts";
import { type Api, detailOf } from "../kit/api.ts";
import { byId, element } from "../kit/dom.ts";

type Piece = {
  readonly piece: string;
  readonly onHand: number;
  readonly promised: number;
  readonly free: number;
};

export type StockNote = { readonly entry: Readonly<Record<string, string | number>>; readonly says: string };

const piecesOf = ({ skus, transfers }: StockView): readonly Piece[] => [
  ...skus.map(({ sku, ...counts }) => ({ piece: sku, ...counts })),
  ...transfers.map(({ design, ...counts }) => ({ piece: `transfer:${design}`, ...counts })),
];

/** Gives the way to open the dialog; `note` is called once there is something to write. */
export function stockTaking(
  api: Api,
  menu: () => Menu | null,
  note: (answer: StockNote) => void,
): () => Promise<void> {
  const dialog = byId<HTMLDialogElement>("stock");
  const select = byId<HTMLSelectElement>("stock-piece");
  const input = byId<HTMLInputElement>("stock-number");
  let pieces: readonly Piece[] = [];

  const sayNow = (): void => {
    const piece = pieces.find((candidate) => candidate.piece === select.value);
    byId("stock-now").textContent =
      piece === undefined
        ? ""
        : `${piece.onHand} there, ${piece.promised} of them promised, ${piece.free} free.`;
  };
  select.addEventListener("change", sayNow);
  byId("stock-back").addEventListener("click", () => dialog.close());
  byId("stock-note").addEventListener("click", () => {
    const way = chosen(dialog, "stock-way") ?? "counted";
    const typed = input.value.trim();
    if (!/^\d{1,6}$/.test(typed) || (way === "delivered" && Number(typed) === 0)) {
      byId("stock-missing").textContent = "Type a whole number.";
      return;
    }
    const transfer = select.value.startsWith("transfer:");
    const name = pieceName(menu(), select.value);
    dialog.close();
    note({
      entry: {
        ...(transfer ? { design: select.value.slice("transfer:".length) } : { sku: select.value }),
        [way]: Number(typed),
      },
      says: way === "counted" ? `${name} counted: ${typed}` : `${typed} more of ${name}`,
    });
  });

  return async () => {
    input.value = "";
    byId("stock-missing").textContent = "";
    const reply = await api("/stock");
    if (reply.status === 200)
      pieces = piecesOf(reply.body as StockView); // as the route documents
    else byId("stock-missing").textContent = detailOf(reply);
    select.replaceChildren(
      ...[...pieces]
        .sort((one, other) => one.free - other.free)
        .map(({ piece, free }) =>
          element("option", { value: piece }, `${pieceName(menu(), piece)} (${free} free)`),
        ),
    );
    sayNow();
    if (!dialog.open) dialog.showModal();
  };
}
