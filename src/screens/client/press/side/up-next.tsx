/** @jsxImportSource preact */
/** The next garments for each press of this tablet, and problems that need somebody. */
import type { QueueView } from "../../../../model/orders/queue.ts";
import { garmentWords } from "../../crew/words/settings.ts";
import { Garment } from "../../parts/garment.tsx";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { type UpNext as Coming, problemsOf, upNext } from "../shown.ts";
import type { Press, State } from "../state.ts";

/** The line in figures. */
export function countsLine({ counts }: QueueView): string {
  const parts = [`${counts.waiting} waiting`, `${counts.pressing} pressing`, `${counts.ready} ready`];
  if (counts.short > 0) parts.push(`${counts.short} short`);
  if ((counts.toClaim ?? 0) > 0) parts.push(`${counts.toClaim} to claim`);
  if (counts.toPay > 0) parts.push(`${counts.toPay} to pay`);
  return parts.join(" · ");
}

type RowProps = { readonly coming: Coming; readonly looks: State["looks"]; readonly choose: () => void };

function Row({ coming: { job, heat, changes, reserved, chosen }, looks, choose }: RowProps) {
  const maybe = job.letGo.map((other) => ` · maybe at press ${other.press}`).join("");
  return (
    <li>
      <Garment look={looks.get(job.offer)} colour={job.colour} size={job.size} />
      <p>
        <b>{job.job}</b> {garmentWords(job)}
        <br />
        <span class="small">
          {job.designName} · {changes ? <strong>{heat}</strong> : heat}
          {maybe}
          {(job.wishes ?? []).map(({ wish, name }) => (
            <strong key={wish}> · {name}</strong>
          ))}
        </span>
      </p>
      {reserved ? (
        <Tap pressed={chosen} label={`Press ${job.job} next`} onTap={choose}>
          Next
        </Tap>
      ) : null}
    </li>
  );
}

type Props = {
  readonly queue: QueueView;
  readonly own: readonly Press[];
  readonly state: State;
  readonly actions: Actions;
};

export function UpNext({ queue, own, state: { chosen, looks }, actions }: Props) {
  const two = own.length > 1;
  return (
    <ol id="up-next" class="ruled up-next">
      {own.map((press) => {
        const { press: id, platen } = press;
        const rows = upNext(press, queue, chosen.get(id) ?? null, two ? 2 : 3);
        return [
          two ? (
            <li key={id} class="whose strong">
              Press {id}
            </li>
          ) : null,
          ...rows.map((coming) => (
            <Row
              key={`${id} ${coming.job.job}`}
              coming={coming}
              looks={looks}
              choose={() => actions.choose(id, coming.job.job)}
            />
          )),
          rows.length > 0 ? null : (
            <li key={`${id} none`} class="none">
              Nothing waits for a {platen} platen.
            </li>
          ),
        ];
      })}
    </ol>
  );
}

export function Problems({
  queue,
  standing,
  stallNow,
}: {
  readonly queue: QueueView;
  readonly standing: readonly string[];
  readonly stallNow: number;
}) {
  const problems = problemsOf(queue, standing, stallNow);
  const count = problems.length;
  return (
    <details class={count > 0 ? "problems needs-you" : "problems"}>
      <summary>
        {count === 0 ? "No problems" : `${count} ${count === 1 ? "problem" : "problems"}: ${problems[0]}`}
      </summary>
      <ul class="ruled">
        {problems.map((problem) => (
          <li key={problem}>{problem}</li>
        ))}
      </ul>
    </details>
  );
}
