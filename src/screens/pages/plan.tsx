/** Before the fair: what to bring, the sheets to order, power, the pitch, and whether the day can pay. */
import type { Child } from "hono/jsx";
import { AppBar } from "../parts/app-bar.tsx";
import { Page } from "../parts/layout.tsx";

type PartProps = {
  readonly part: string;
  readonly heading: string;
  readonly lead: string;
  readonly act: string;
  readonly children?: Child;
};

/** One part: its figures, its button, what stands in the way, and its answer. */
function Part({ part, heading, lead, act, children }: PartProps) {
  return (
    <section class="part" id={part} aria-labelledby={`${part}-heading`}>
      <h2 id={`${part}-heading`}>{heading}</h2>
      <p class="lead no-print">{lead}</p>
      <form id={`${part}-form`} class="no-print" autocomplete="off">
        <div id={`${part}-fields`}></div>
        {children}
        <div id={`${part}-faults`} class="notice" role="alert" hidden></div>
        <div class="row act">
          <button type="submit" class="main">
            {act}
          </button>
          <button type="button" id={`${part}-stop`} hidden>
            Stop
          </button>
          <p id={`${part}-progress`} class="progress" role="status"></p>
        </div>
      </form>
      <div id={`${part}-answer`} class="answer" hidden></div>
    </section>
  );
}

const PARTS = [
  [
    "The day",
    [
      ["Stock and money", "#plan"],
      ["Presses", "#presses"],
    ],
  ],
  [
    "To order",
    [
      ["Sheets", "#sheets"],
      ["Power", "#power"],
    ],
  ],
  [
    "The place",
    [
      ["Pitch", "#pitch"],
      ["Organiser’s sheet", "#organiser"],
    ],
  ],
] as const;

export function PlanPage() {
  return (
    <Page title="Plan a day at a fair" screen="plan" shares={["uplot"]}>
      <AppBar title="Plan a day at a fair" menu={{ label: "Parts of the plan", groups: PARTS }} />
      <main id="main" tabindex={-1}>
        <div class="files no-print">
          <p>
            It starts with an invented fair; type your own figures over it. All work is done in this browser,
            and what you type stays here.
          </p>
          <details>
            <summary>Save, load, or start over</summary>
            <div class="row">
              <button type="button" id="save-day">
                Save all figures (JSON)
              </button>
              <button type="button" id="save-plan">
                Save the plan request (JSON)
              </button>
              <label class="button" for="load">
                Load figures or lessons
              </label>
              <input type="file" id="load" accept=".json,application/json" class="offstage" />
              <button type="button" id="start-over">
                Back to the example
              </button>
            </div>
          </details>
          <p id="file-told" role="status"></p>
        </div>
        <Part
          part="plan"
          heading="What to bring, and can the day pay?"
          lead="Many days of this fair are imagined, and stock is chosen to earn most over all of them."
          act="Plan the day"
        >
          <details>
            <summary>Everything else: the whole request</summary>
            <label for="plan-text">Plan request (JSON)</label>
            <textarea
              id="plan-text"
              rows={14}
              spellcheck={false}
              aria-describedby="plan-text-help"
            ></textarea>
            <p class="help" id="plan-text-help">
              The same figures as a file has them, for those who would rather type. schemas/plan-request.json
              describes it.
            </p>
            <p class="fault" id="plan-text-fault" role="status"></p>
          </details>
        </Part>
        <Part
          part="sheets"
          heading="Sheets of transfers to order"
          lead="Designs are ganged on sheets so that the order costs least. Once the day is planned, its transfers are filled in here."
          act="Lay out the sheets"
        />
        <Part
          part="presses"
          heading="How many presses and hands?"
          lead="The days of the plan above, lived through at the presses with each number of machines and people."
          act="Try the numbers"
        />
        <Part
          part="power"
          heading="Power"
          lead="Which load on which circuit, what to ask for, and which cord. An estimate: a licensed electrician and the local code decide."
          act="Share the load"
        />
        <Part
          part="pitch"
          heading="The pitch"
          lead="Where everything stands, with the hot side out of the public's reach."
          act="Lay out the pitch"
        />
        <section class="part" id="organiser" aria-labelledby="organiser-heading">
          <h2 id="organiser-heading">The organiser's sheet</h2>
          <p class="lead no-print">One page to hand over. It takes the power and the pitch planned above.</p>
          <form id="organiser-form" class="no-print" autocomplete="off">
            <div id="organiser-fields"></div>
            <div id="organiser-faults" class="notice" role="alert" hidden></div>
          </form>
          <div id="organiser-answer" class="answer"></div>
        </section>
      </main>
    </Page>
  );
}
