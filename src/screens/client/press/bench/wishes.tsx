/** @jsxImportSource preact */
/** The wishes for a garment, to read before it is pressed. */
import type { JobView } from "../../../../model/orders/queue.ts";

const Wish = ({ says, words }: { readonly says: string; readonly words: string }) => (
  <p class="wish figure">
    <span>{says}</span> {words}
  </p>
);

export function Wishes({
  job: { wish, wishes = [], note, ownGarment, second = [] },
}: {
  readonly job: JobView;
}) {
  return (
    <>
      {ownGarment === undefined ? null : <Wish says="Take no blank:" words="The customer’s own garment" />}
      {wishes.length === 0 ? null : (
        <Wish says="Wished for, to be made:" words={wishes.map(({ name }) => name).join(", ")} />
      )}
      {second.length === 0 ? null : (
        <Wish
          says="Second transfer:"
          words={second
            .map(({ designName, placement }) =>
              placement === null ? designName : `${designName}, ${placement}`,
            )
            .join("; ")}
        />
      )}
      {note === undefined ? null : <Wish says="In the customer’s words:" words={`“${note}”`} />}
      {wish === undefined ? null : <Wish says="Asked for, not on the menu:" words={`“${wish}”`} />}
    </>
  );
}
