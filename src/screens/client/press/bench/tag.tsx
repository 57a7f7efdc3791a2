/** @jsxImportSource preact */
/** The garment on the press as a swing tag: what to take, what to put on it, how to press it. */

import type { Look } from "../../../../model/garment/look.ts";
import type { JobView, QueueView } from "../../../../model/orders/queue.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { dwellWords, garmentWords, pressesWords, temperature } from "../../crew/words/settings.ts";
import { spelt } from "../../kit/spelling.ts";
import { Garment } from "../../parts/garment.tsx";
import { Tap } from "../../parts/tap.tsx";
import { heatStep } from "../shown.ts";
import { Wishes } from "./wishes.tsx";

type Press = QueueView["presses"][number];

type TagNotes = {
  /** The press's last temperature, if this tablet knows it. */
  readonly before: number | null;
  /** Presses an operator may serve while this one changes its heat. */
  readonly meanwhile: readonly string[];
  readonly goTo: (press: string) => void;
  readonly look: Look | undefined;
};

/** The platen's new temperature, about how long the change takes, and which press to use until then. */
function HeatChange({ job: { setTo, settings }, notes: { before, meanwhile, goTo } }: TagProps) {
  const to = settings.temperatureFahrenheit;
  if (setTo === null)
    return before === null || before === to ? null : <p class="change larger">{heatStep(before, to)}</p>;
  const { fahrenheit, aboutMinutes, readyAt } = setTo;
  const isKnown = before !== null && before !== fahrenheit;
  const step = isKnown ? heatStep(before, fahrenheit) : `Set ${temperature(fahrenheit)}`;
  return (
    <div class="row change">
      <p class="larger whole">{`${step}, about ${aboutMinutes} min`}</p>
      <p class="grow">{`Ready about ${timeOfDay(readyAt)}. Trust the press’s own display.`}</p>
      {meanwhile.map((press) => (
        <Tap key={press} onTap={() => goTo(press)}>{`Use press ${press}`}</Tap>
      ))}
    </div>
  );
}

function Settings({ settings, placement }: Pick<JobView, "settings" | "placement">) {
  const fields: readonly (readonly [label: string, value: string])[] = [
    ["Heat", temperature(settings.temperatureFahrenheit)],
    ["Dwell", dwellWords(settings)],
    ["Pressure", settings.pressure],
    ["Peel", settings.peel],
    ["Press", pressesWords(settings)],
    ...(placement === null ? [] : ([["Where", placement]] as const)),
  ];
  return (
    <dl class="row fields">
      {fields.map(([label, value]) => (
        <div key={label} class="field">
          <dt class="small">{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

/** Where to look before this garment is pressed, because presses that were silent, this one too, may have pressed it. */
function LookFirst({ press: own, job: { letGo } }: Pick<TagProps, "press" | "job">) {
  return letGo.map(({ press, silentSince }) => {
    const since = timeOfDay(silentSince);
    const [look, then] =
      press === own
        ? [
            "Look first: is it pressed already?",
            `This press had it reserved and was silent from ${since}. If you pressed it then, tap Pressed.`,
          ]
        : [
            `Look at press ${press} first.`,
            `It had this garment reserved and was silent from ${since}. If the garment is pressed there, tap Pressed. If it lies on that press, tap Return to line.`,
          ];
    return (
      <p key={press} class="change look-first">
        <strong>{look}</strong> {then}
      </p>
    );
  });
}

type TagProps = { readonly press: string; readonly job: JobView; readonly notes: TagNotes };

/** The tag of a garment on the press. */
export function GarmentTag({ press, job, notes }: TagProps) {
  const which = job.garments === 1 ? "1 garment" : `garment ${job.job.split("-")[1] ?? 1} of ${job.garments}`;
  return (
    <>
      <LookFirst press={press} job={job} />
      <div class="tag-head">
        <p class="tag-number number-big">{job.number}</p>
        <p class="tag-which strong">
          {which}
          <br />
          {job.dueBy === null ? null : `by ${timeOfDay(job.dueBy)}`}
          {job.unclaimed ? <strong> Web order, nobody came yet</strong> : null}
        </p>
      </div>
      <div class="garment">
        <Garment look={notes.look} colour={job.colour} size={job.size} measured />
        <div>
          <p class="garment-colour figure">{job.colourName}</p>
          <p class="garment-blank large">{job.blankName}</p>
          <p class="design figure">{job.designName}</p>
          {job.placement === null ? null : <p class="placement strong">{job.placement}</p>}
        </div>
        {/* Long words are set smaller, so that "one size" stays on its line. */}
        <p class={job.sizeName.length > 3 ? "larger" : "garment-size figure"}>{job.sizeName}</p>
      </div>
      <Wishes job={job} />
      <div class="settings">
        <HeatChange press={press} job={job} notes={notes} />
        <Settings settings={job.settings} placement={null} />
        {(job.second ?? []).map(({ design, designName, settings, placement }) => (
          <section key={design}>
            <h2>{`Then the second transfer: ${designName}`}</h2>
            <Settings settings={settings} placement={placement} />
          </section>
        ))}
        <p class="sheet">From the stall’s menu. If the supplier’s sheet differs, follow the sheet.</p>
      </div>
      <ul class="cautions">
        {job.cautions.map((caution) => (
          <li key={caution}>{spelt(caution)}</li>
        ))}
      </ul>
    </>
  );
}

/** The press's next garment, as far as the screen knows. */
const nextFor = ({ platen, reserve }: Press, queue: QueueView): JobView | null =>
  reserve[0] ?? queue.next.find((job) => job.platen === platen) ?? null;

export function EmptyTag({ press, queue }: { readonly press: Press; readonly queue: QueueView }) {
  const next = nextFor(press, queue);
  if (press.downSince !== null)
    return (
      <>
        <p class="empty figure">Out of order</p>
        <p>{`Since ${timeOfDay(press.downSince)}. Its garment went back to the front of the line.`}</p>
        <p>Let it cool with the plug out before anybody opens it; repairs are for whoever is trained.</p>
      </>
    );
  return (
    <>
      <p class="empty figure">This press is free</p>
      <p>
        {next === null
          ? `Nothing is waiting for a ${press.platen} press.`
          : `Next: ${next.number}, ${garmentWords(next)}, ${next.designName}.`}
      </p>
    </>
  );
}
