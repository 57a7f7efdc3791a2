/** @jsxImportSource preact */
/** What the press page asks before it writes: why it pauses, what was counted. */
import type { QueueView } from "../../../model/orders/queue.ts";
import { pieceName } from "../crew/words/names.ts";
import { garmentWords } from "../crew/words/settings.ts";
import { Choices, optionsOf } from "../parts/choices.tsx";
import { Dialog } from "../parts/dialog.tsx";
import { Tap } from "../parts/tap.tsx";
import type { Actions } from "./actions.ts";
import { pausing } from "./acts.ts";
import type { Counting } from "./side/counting.ts";
import { OffButton } from "./side/low.tsx";
import { groupOf, groupsOf, type Piece, type Way } from "./side/stock-pieces.ts";
import type { State } from "./state.ts";

const PAUSES = [
  ["rain", "Rain"],
  ["power", "No power"],
  ["lunch", "Lunch"],
  ["other", "Something else"],
] as const;

export function PauseDialog({ actions: { change, send } }: { readonly actions: Actions }) {
  const close = (): void => change((before) => ({ ...before, pausing: false }));
  return (
    <Dialog id="pause" title="Pause the stall" closed={close}>
      <p>
        Nobody can order by text or on the web. When you resume, every promised time moves back by the length
        of the pause.
      </p>
      <div class="row">
        {PAUSES.map(([reason, label]) => (
          <Tap
            key={reason}
            onTap={() => {
              close();
              send(pausing(reason));
            }}
          >
            {label}
          </Tap>
        ))}
        <Tap onTap={close}>Back</Tap>
      </div>
    </Dialog>
  );
}

/** Enter goes on to the next field, and stores this one. */
function goOn(event: KeyboardEvent): void {
  const { target, key } = event;
  if (key !== "Enter" || !(target instanceof HTMLInputElement)) return;
  const dialog = target.closest("dialog");
  const fields = [...(dialog?.querySelectorAll<HTMLElement>("#stock-rows input") ?? [])];
  (fields[fields.indexOf(target) + 1] ?? dialog?.querySelector("select"))?.focus();
}

const shortWords = ({ short }: QueueView): string =>
  short.length === 0
    ? ""
    : `Short now: ${short.map((job) => `${job.job} ${garmentWords(job)}`).join("; ")}. They keep their places and get the next ones; their customers are told.`;

type StockProps = { readonly state: State; readonly queue: QueueView; readonly actions: Actions };

export function StockDialog({ state: { counting, menu, pressOnly }, queue, actions }: StockProps) {
  const { way, group, pieces, typed, wrong, said } = counting;
  const change = (part: Partial<Counting>): void =>
    actions.change((before) => ({ ...before, counting: { ...before.counting, ...part } }));
  const close = (): void => change({ open: false });
  const row = ({ piece, onHand, promised, free }: Piece) => {
    const name = pieceName(menu, piece);
    return (
      <li key={piece}>
        <span>
          <b>{name}</b> <span class="small">{`${onHand} there, ${promised} promised, ${free} free`}</span>
        </span>
        <input
          class="figure-box"
          inputMode="numeric"
          autocomplete="off"
          maxLength={6}
          aria-label={`${way === "counted" ? "Counted" : "Brought"}: ${name}`}
          aria-invalid={wrong === piece}
          aria-describedby="stock-said"
          value={typed[piece] ?? ""}
          onInput={({ currentTarget: { value } }) => change({ typed: { ...typed, [piece]: value } })}
          onChange={() => actions.note(piece)}
          onKeyDown={goOn}
        />
        {pressOnly ? null : (
          <OffButton piece={piece} name={name} off={queue.offMenu.includes(piece)} setOff={actions.setOff} />
        )}
      </li>
    );
  };
  return (
    <Dialog id="stock" title="Count or add stock" closed={close}>
      <Choices
        id="stock-way"
        legend="What is the number?"
        options={optionsOf<Way>(
          [
            ["counted", "Total on hand"],
            ["delivered", "New delivery"],
          ],
          way,
        )}
        choose={(now) => change({ way: now })}
      />
      <p>
        Each number is noted as soon as you go on to the next. Count everything not pressed yet, what lies on
        a press included.
      </p>
      <div>
        <label for="stock-what">Of what</label>
        <select
          id="stock-what"
          value={group}
          onChange={({ currentTarget: { value } }) => change({ group: value })}
        >
          {groupsOf(menu, pieces).map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </div>
      <ul id="stock-rows" class="ruled lines">
        {pieces.filter(({ piece }) => groupOf(piece) === group).map(row)}
      </ul>
      <p id="stock-said" role="status">
        {said}
      </p>
      <p id="stock-short" role="status">
        {shortWords(queue)}
      </p>
      <Tap class="main" onTap={close}>
        Done
      </Tap>
    </Dialog>
  );
}
