/** @jsxImportSource preact */
/** One press on the page: its tag, the taps on its garment, and what the last of them came to. */
import type { JobView, QueueView } from "../../../../model/orders/queue.ts";
import { Tap } from "../../parts/tap.tsx";
import { pressUp } from "../acts.ts";
import { nextTake } from "../side/reserve.ts";
import { askSpoiled, type Made, madeOf } from "../spoil.ts";
import { choiceAt, dwellAt, type Press, type State } from "../state.ts";
import type { Ways } from "../ways.ts";
import { dwellShown } from "./dwell.ts";
import { EmptyTag, GarmentTag } from "./tag.tsx";

type Props = {
  readonly press: Press;
  readonly place: number;
  readonly queue: QueueView;
  readonly state: State;
  readonly ways: Ways;
  /** Whether its main button is filled. */
  readonly filled: boolean;
};

const askAbout = (ways: Ways, press: string, job: string, made: Made | null) => (): void =>
  ways.change((before) => ({ ...before, spoil: askSpoiled(press, job, made) }));

/** The result of the last tap, with its undo. */
function LastTap({ press: { press }, state, ways }: Pick<Props, "press" | "state" | "ways">) {
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
        <Tap key="undo" busy={state.busy} onTap={() => ways.undo(press)}>
          Undo
          {/* For the eye: a name that changes each second would be read out each second. */}
          <span aria-hidden="true"> {left} s</span>
        </Tap>
      )}
      {pressed === null ? null : (
        <Tap key="spoiled" busy={state.busy} onTap={askAbout(ways, press, pressed, made)}>
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
  ways,
}: Pick<Props, "press" | "state" | "ways"> & { readonly job: JobView }) {
  const { large, small, counting, openNow, left } = dwellShown(job, dwellAt(state, press), state.now);
  return (
    <button
      type="button"
      key="dwell"
      data-part="dwell"
      class={counting ? "big counting" : openNow ? "big needs-you" : "big"}
      style={{ "--left": String(left) }}
      onClick={() => ways.dwell(press.press)}
    >
      {large}
      <span>{small}</span>
    </button>
  );
}

function Taps({ press, state, ways, filled }: Props) {
  const { press: id, job, downSince } = press;
  const { busy } = state;
  const main = filled ? "big main" : "big";
  if (downSince !== null)
    return (
      <Tap part="works-again" class="big" once busy={busy} onTap={() => ways.send(pressUp(id))}>
        It works again
      </Tap>
    );
  // The same button before and after, so that the keyboard stays on it.
  if (job === null) {
    const { label, can } = nextTake(press, state.signal, choiceAt(state, press));
    return (
      <Tap key="main" part="pull" class={main} once busy={busy} disabled={!can} onTap={() => ways.pull(id)}>
        {label}
      </Tap>
    );
  }
  return (
    <>
      <Dwell press={press} job={job} state={state} ways={ways} />
      <Tap key="main" part="pressed-next" class={main} once busy={busy} onTap={() => ways.pressed(id, true)}>
        Pressed, next
      </Tap>
      <Tap part="pressed" once busy={busy} onTap={() => ways.pressed(id, false)}>
        Pressed
      </Tap>
      <Tap part="spoiled" once busy={busy} onTap={askAbout(ways, id, job.job, madeOf(job))}>
        Spoiled…
      </Tap>
      <Tap part="give-back" once busy={busy} onTap={() => ways.giveBack(id, job.job)}>
        Return to line
      </Tap>
    </>
  );
}

export function Bench(props: Props) {
  const { press, place, queue, state, ways } = props;
  const { press: id, job } = press;
  const isAlone = state.standing.length === 1;
  const free = queue.presses.filter(
    (other) => !state.standing.includes(other.press) && other.downSince === null,
  );
  const notes = {
    before: state.heat.get(id) ?? null,
    meanwhile: isAlone ? free.map((other) => other.press) : [],
    goTo: (other: string) => ways.stand([other]),
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
        <LastTap press={press} state={state} ways={ways} />
        <div class="taps">
          <Taps {...props} />
        </div>
      </div>
    </div>
  );
}
