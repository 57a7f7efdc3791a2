/** Lists that polls renew: a row that stays as it is stays the same node, wherever it moves, and keeps the focus. */

const focusable = (row: HTMLElement): HTMLElement[] => [
  ...row.querySelectorAll<HTMLElement>("button, summary"),
];

/** Makes these the rows of a list. Each is known by its `data-key`; a row that says something else is replaced. */
export function renewByKey(list: Element, wanted: readonly HTMLElement[]): void {
  const active = document.activeElement;
  const had = active instanceof HTMLElement && list.contains(active) ? active : null;
  const focused = had?.closest<HTMLElement>("[data-key]") ?? null;
  const place = focused === null || had === null ? -1 : focusable(focused).indexOf(had);
  const before = new Map(
    [...list.querySelectorAll<HTMLElement>(":scope > [data-key]")].map((row) => [row.dataset["key"], row]),
  );
  const rows = wanted.map((row) => {
    const same = before.get(row.dataset["key"]);
    return same?.isEqualNode(row) === true ? same : row;
  });
  for (const child of [...list.children]) if (!rows.some((row) => row === child)) child.remove();
  rows.forEach((row, index) => {
    if (list.children[index] !== row) list.insertBefore(row, list.children[index] ?? null);
  });
  if (had?.isConnected === true || place < 0) return;
  const now = rows.find(({ dataset }) => dataset["key"] === focused?.dataset["key"]);
  if (now !== undefined) focusable(now)[place]?.focus();
}
