/** @jsxImportSource preact */
/** The unsent taps, and the outcome of taps sent late, until somebody has read it. */
import { render } from "preact";
import { byId } from "../kit/dom.ts";
import { keepsLastingly } from "../kit/kept.ts";
import { Tap } from "../parts/tap.tsx";
import type { Tap as Made, Message } from "./taps.ts";
import { timeOfDay } from "./words/clock.ts";

type Actions = {
  readonly again: () => void;
  readonly letGo: (once: string) => void;
  readonly read: (id: string) => void;
  readonly sendAllTheSame: (id: string) => void;
};

export type Unsent = {
  /** Those that are listed here. */
  readonly taps: readonly Made<unknown>[];
  /** The total number. */
  readonly kept: number;
  readonly news: readonly Message<unknown>[];
  readonly lost: boolean;
  /** The key of this tablet was refused. */
  readonly ended: boolean;
  /** Further words beside it. */
  readonly beside: string;
};

/** A tap is on its way this long before anything is said about it. */
const PATIENCE = 2000;

function headline({ taps, kept, lost, ended }: Unsent): string {
  if (ended && kept > 0)
    return "This tablet’s link has been replaced. Your taps are saved: open the new crew link on this tablet to send them.";
  if (lost) return `No signal · ${taps.length} ${taps.length === 1 ? "tap" : "taps"} saved`;
  return taps.length === 0 ? "" : "The signal is weak. Taps are kept until the stall has answered.";
}

type Props = { readonly now: Unsent; readonly quiet: boolean; readonly actions: Actions };

function Notices({ now, quiet, actions: { again, letGo, read, sendAllTheSame } }: Props) {
  const { taps, news, beside } = now;
  return (
    <>
      {keepsLastingly() ? null : (
        <p class="notice" role="status">
          This browser keeps nothing (a private window, or a full disk): taps that are not sent are lost when
          the page is closed.
        </p>
      )}
      <div id="unsent" class="notice" hidden={quiet}>
        <p role="status">
          <span>{quiet ? "" : headline(now)}</span>
          <span>{quiet ? "" : beside}</span>
        </p>
        <details hidden={quiet || taps.length === 0}>
          <summary>{`Not sent yet: ${taps.length}`}</summary>
          <ol id="unsent-list" class="ruled lines">
            {taps.map(({ says, at, once }) => (
              <li key={once}>
                <span>{`${timeOfDay(new Date(at).toISOString())}: ${says}`}</span>
                <Tap onTap={() => letGo(once)}>Discard</Tap>
              </li>
            ))}
          </ol>
          <Tap onTap={again}>Send now</Tap>
        </details>
      </div>
      <div id="news" class="notice" role="alert" hidden={news.length === 0}>
        <ul id="news-list" class="ruled lines">
          {news.map(({ id, text, tap }) => (
            <li key={id}>
              <span>{text}</span>
              {tap === undefined ? null : <Tap onTap={() => sendAllTheSame(id)}>Send anyway</Tap>}
              <Tap onTap={() => read(id)}>Got it</Tap>
            </li>
          ))}
        </ul>
      </div>
    </>
  );
}

export function unsentPanel(actions: Actions): { show: (now: Unsent) => void } {
  let timer: ReturnType<typeof setTimeout> | undefined;

  function show(now: Unsent): void {
    const { taps, kept, lost, ended } = now;
    clearTimeout(timer);
    const [first] = taps;
    const waited = first === undefined ? 0 : Math.abs(Date.now() - first.at);
    const onItsWay = first !== undefined && !lost && !ended && waited < PATIENCE;
    if (onItsWay) timer = setTimeout(() => show(now), PATIENCE - waited);
    // The page's own list of kept orders already shows that there is no signal.
    const quiet = onItsWay || (first === undefined && !(ended && kept > 0) && !(lost && kept === 0));
    render(<Notices now={now} quiet={quiet} actions={actions} />, byId("unsent-part"));
  }
  return { show };
}
