/** @jsxImportSource preact */
/** One press on the page: its tag, the taps on its garment, and what the last of them came to. */
import type { JobView, QueueView } from "../../../../model/orders/queue.ts";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { pressUp } from "../acts.ts";
import { nextTake } from "../side/reserve.ts";
import { askSpoiled, type Made, madeOf } from "../spoil.ts";
import { choiceAt, dwellAt, type Press, type State } from "../state.ts";
import { dwellShown } from "./dwell.ts";
import { EmptyTag, GarmentTag } from "./tag.tsx";

type Props = {
  readonly press: Press;
  readonly place: number;
  readonly queue: QueueView;
  readonly state: State;
  readonly actions: Actions;
  /** Whether its main button is filled. */
  readonly filled: boolean;
};

const askAbout = (actions: Actions, press: string, job: string, made: Made | null) => (): void =>
  actions.change((before) => ({ ...before, spoil: askSpoiled(press, job, made) }));

/** The result of the last tap, with its undo. */
function LastTap({ press: { press }, state, actions }: Pick<Props, "press" | "state" | "actions">) {
  const last = state.last.get(press);
  if (last === undefined) return null;
  const { text, pressed, made, back, until } = last;
  const left = Math.ceil((until - state.now) / 1000);
  return (
    <div class="row last">
      <p class="strong grow" role="status">
        {text}
      </p>
      {left <= 0 || (pressed === null && back === null) ? null : (
        <Tap key="undo" busy={state.busy} onTap={() => actions.undo(press)}>
          Undo
          {/* For the eye: a name that changes each second would be read out each second. */}
          <span aria-hidden="true"> {left} s</span>
        </Tap>
      )}
      {pressed === null ? null : (
        <Tap key="spoiled" busy={state.busy} onTap={askAbout(actions, press, pressed, made)}>
          It was spoiled…
        </Tap>
      )}
    </div>
  );
}

function Dwell({
  press,
  job,
  state,
  actions,
}: Pick<Props, "press" | "state" | "actions"> & { readonly job: JobView }) {
  const { large, small, counting, openNow, left } = dwellShown(job, dwellAt(state, press), state.now);
  return (
    <button
      type="button"
      key="dwell"
      data-part="dwell"
      class={counting ? "big counting" : openNow ? "big needs-you" : "big"}
      style={{ "--left": String(left) }}
      onClick={() => actions.dwell(press.press)}
    >
      {large}
      <span>{small}</span>
    </button>
  );
}

function Taps({ press, state, actions, filled }: Props) {
  const { press: id, job, downSince } = press;
  const { busy } = state;
  const main = filled ? "big main" : "big";
  if (downSince !== null)
    return (
      <Tap part="works-again" class="big" once busy={busy} onTap={() => actions.send(pressUp(id))}>
        It works again
      </Tap>
    );
  // The same button before and after, so that the keyboard stays on it.
  if (job === null) {
    const { label, can } = nextTake(press, state.signal, choiceAt(state, press));
    return (
      <Tap
        key="main"
        part="pull"
        class={main}
        once
        busy={busy}
        disabled={!can}
        onTap={() => actions.pull(id)}
      >
        {label}
      </Tap>
    );
  }
  return (
    <>
      <Dwell press={press} job={job} state={state} actions={actions} />
      <Tap
        key="main"
        part="pressed-next"
        class={main}
        once
        busy={busy}
        onTap={() => actions.pressed(id, true)}
      >
        Pressed, next
      </Tap>
      <Tap part="pressed" once busy={busy} onTap={() => actions.pressed(id, false)}>
        Pressed
      </Tap>
      <Tap part="spoiled" once busy={busy} onTap={askAbout(actions, id, job.job, madeOf(job))}>
        Spoiled…
      </Tap>
      <Tap part="give-back" once busy={busy} onTap={() => actions.giveBack(id, job.job)}>
        Return to line
      </Tap>
    </>
  );
}

export function Bench(props: Props) {
  const { press, place, queue, state, actions } = props;
  const { press: id, job } = press;
  const isAlone = state.standing.length === 1;
  const free = queue.presses.filter(
    (other) => !state.standing.includes(other.press) && other.downSince === null,
  );
  const notes = {
    before: state.heat.get(id) ?? null,
    meanwhile: isAlone ? free.map((other) => other.press) : [],
    goTo: (other: string) => actions.stand([other]),
    look: state.looks.get(job?.offer ?? ""),
  };
  return (
    <div id={`bench-${place}`} class="bench">
      <section class="tag hole" aria-label={isAlone ? "On this press" : `On press ${id}`}>
        {/* It can scroll on a low screen, so the keyboard has to reach it; another garment begins at its top. */}
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by the keyboard */}
        <div key={`${id} ${job?.job}`} class="tag-body" tabIndex={0}>
          {job === null ? (
            <EmptyTag press={press} queue={queue} />
          ) : (
            <GarmentTag press={id} job={job} notes={notes} />
          )}
        </div>
      </section>
      <div class="stack tight dock">
        <LastTap press={press} state={state} actions={actions} />
        <div class="taps">
          <Taps {...props} />
        </div>
      </div>
    </div>
  );
}
