/** @jsxImportSource preact */
/** The planning page: its state, kept at every keystroke, and the planner's worker, which starts again when a figure changes. */

import { nanoid } from "nanoid";
import { render } from "preact";
import { byId } from "../kit/dom.ts";
import { spellAs } from "../kit/spelling.ts";
import type { Actions } from "./actions.ts";
import { closedFair, nextDay } from "./day/after.ts";
import { keepAnswers, keptAnswers } from "./day/answers.ts";
import { type Day, FIRST } from "./day/first.ts";
import { dayIn, forgetDay, keepDay, keptPlans, plansIn } from "./day/keeping.ts";
import { wordAt } from "./groups/names.ts";
import type { Part } from "./messages.ts";
import { unfoldPapers } from "./printing.tsx";
import {
  addressOf,
  asked,
  changed,
  keyOf,
  nextPart,
  placeFrom,
  progressWords,
  type State,
  stateOf,
} from "./state.ts";
import { Planner, titleOf } from "./view.tsx";
import { type Outcome, planWorker } from "./work.ts";

/** Quiet after the last key before the planner starts again. */
const QUIET_MILLISECONDS = 500;

const desk = planWorker();
const place = byId("planner");
/** What is being worked out. */
let workingOn: string | null = null;
let quiet: ReturnType<typeof setTimeout> | undefined;

const first = keptPlans()[0] ?? { id: nanoid(8), day: FIRST };
let state: State = stateOf(first.id, first.day, {}, placeFrom(location.hash));

function show(next: State): void {
  const moved = addressOf(next.place) !== addressOf(state.place);
  state = next;
  spellAs(wordAt(state.day.plan, "#/currency", "USD"));
  render(<Planner state={state} actions={actions} />, place);
  document.title = titleOf(state);
  if (moved) {
    byId("step-heading").focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }
}

/** Works out what is out of date, one part after another. */
function workOut(): void {
  clearTimeout(quiet);
  const part = nextPart(state);
  if (part === null || workingOn === keyOf(asked(state, part))) return;
  void work(part);
}

async function work(part: Part): Promise<void> {
  const { id } = state;
  const ask = asked(state, part);
  const key = keyOf(ask);
  // Whatever is under way is stopped by asking for something else.
  workingOn = key;
  show({ ...state, working: { part, says: "" }, stopped: false });
  const outcome = await desk.ask(ask, ({ stage }) => {
    if (state.id === id && keyOf(asked(state, part)) === key)
      show({ ...state, working: { part, says: progressWords(stage) } });
  });
  if (state.id !== id || outcome.kind === "replaced") return;
  workingOn = null;
  show({ ...ended(part, key, outcome), working: null });
  if (outcome.kind === "answer") void keepAnswers(id, state.answers);
  workOut();
}

function ended(part: Part, key: string, outcome: Exclude<Outcome, { kind: "replaced" }>): State {
  switch (outcome.kind) {
    case "answer": {
      const { [part]: _mended, ...amiss } = state.amiss;
      return { ...state, amiss, answers: { ...state.answers, [part]: { key, answer: outcome } } };
    }
    case "faults":
      return { ...state, amiss: { ...state.amiss, [part]: { key, faults: outcome.faults } } };
    case "stopped":
      return { ...state, stopped: true, note: "Stopped. Nothing you typed is lost." };
    case "broken":
      return {
        ...state,
        stopped: true,
        note: `The planner broke off: ${outcome.detail}. Your figures are kept; try again.`,
      };
    default:
      return outcome satisfies never;
  }
}

/** Shows another plan, or this one with other figures, with the answers that are kept of it. */
async function openPlan(id: string, day: Day, note: string | null, at = state.place): Promise<void> {
  desk.stop("replaced");
  workingOn = null;
  keepDay({ id, day });
  const answers = await keptAnswers(id);
  show({ ...stateOf(id, day, answers, at), note });
  workOut();
}

const actions: Actions = {
  change: (part, pointer, value) => {
    const next = changed(state, part, pointer, value);
    keepDay(next);
    show(next);
    clearTimeout(quiet);
    quiet = setTimeout(workOut, QUIET_MILLISECONDS);
  },
  work: (part) => void work(part),
  stop: () => desk.stop(),
  open: (id) => {
    const found = keptPlans().find((plan) => plan.id === id);
    if (found !== undefined) void openPlan(id, found.day, null);
  },
  add: (day, says) => {
    // No `hashchange` comes of this, which would take the note away.
    history.pushState(null, "", "#fair");
    void openPlan(nanoid(8), day, says, placeFrom("#fair"));
  },
  remove: (id) => {
    forgetDay(id);
    void keepAnswers(id, {});
    const [left] = keptPlans();
    if (left !== undefined && id === state.id) void openPlan(left.id, left.day, null);
    else show(state);
  },
  plans: keptPlans,
};

window.addEventListener("hashchange", () => {
  show({ ...state, place: placeFrom(location.hash), note: null });
  workOut();
});

/** Keeps the plans of a file beside those there are. */
function addPlans(days: readonly Day[], file: string): void {
  for (const day of days) keepDay({ id: nanoid(8), day });
  // The plan that is open stays so.
  keepDay(state);
  const says = days.length === 0 ? "All of its plans are here already" : `${days.length} plans are in`;
  show({ ...state, note: `${says} (${file}).` });
}

byId<HTMLInputElement>("load").addEventListener("change", (event) => {
  const input = event.target as HTMLInputElement; // the file input of the shell
  const [file] = input.files ?? [];
  void file?.text().then((contents) => {
    const plans = plansIn(contents, keptPlans());
    const read = dayIn(contents, state.day);
    input.value = "";
    if (plans !== null) return addPlans(plans, file.name);
    if (read === null)
      show({
        ...state,
        note: `${file.name} holds no plan and no lessons: nothing was changed. Choose a file saved here.`,
      });
    else void openPlan(state.id, read.day, `${read.what} (${file.name}).`);
  });
});

/** After a fair was closed out: what it left and taught begins a plan of its own, once. */
async function openFirst(): Promise<void> {
  const after = new URLSearchParams(location.search).get("after");
  if (after === null) return openPlan(first.id, first.day, null);
  history.replaceState(null, "", `${location.pathname}${location.hash}`);
  const closed = await closedFair(after);
  if (closed === null)
    return openPlan(
      first.id,
      first.day,
      "The stall’s account could not be read. Open the stall in this browser, and try again from its close-out.",
    );
  return openPlan(
    nanoid(8),
    nextDay(after, closed),
    "Menu, costs, stock that is left and lessons are in. Look below at what is to come along again.",
  );
}

/** Browsers have this on https and on localhost only, and some not in a private window: elsewhere it works as long as it is open. */
async function keepPage(): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  // A worker's script is served by the service worker whose scope holds the script's own address, not its page's.
  for (const scope of ["/plan", "/assets/plan-worker.js"])
    await navigator.serviceWorker.register("/plan-service-worker.js", { scope }).catch(() => null);
}

void openFirst();
unfoldPapers();
void keepPage();
