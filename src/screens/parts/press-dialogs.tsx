/** What the press screen asks before it writes: what was lost, why it pauses, what was counted. */

type Answer = readonly [value: string, label: string];

const LOST: readonly Answer[] = [
  ["both", "Blank and transfer"],
  ["transfer", "Only the transfer"],
  ["blank", "Only the blank"],
];

const WHY: readonly Answer[] = [
  ["crooked", "Crooked"],
  ["scorched", "Scorched"],
  ["wrong-size", "Wrong size"],
  ["peeled-badly", "Peeled badly"],
  ["other", "Something else"],
];

const PAUSES: readonly Answer[] = [
  ["rain", "Rain"],
  ["power", "No power"],
  ["lunch", "Lunch"],
  ["other", "Something else"],
];

function Choices({ name, legend, answers }: { name: string; legend: string; answers: readonly Answer[] }) {
  return (
    <fieldset class="choices">
      <legend>{legend}</legend>
      {answers.map(([value, label]) => (
        <label>
          <input type="radio" name={name} value={value} />
          {label}
        </label>
      ))}
    </fieldset>
  );
}

export function SpoilDialog() {
  return (
    <dialog id="spoil" aria-labelledby="spoil-title">
      <h2 id="spoil-title">Spoiled</h2>
      <Choices name="lost" legend="What is lost?" answers={LOST} />
      <Choices name="why" legend="Why?" answers={WHY} />
      <p id="spoil-missing" role="alert"></p>
      <div class="row">
        <button id="spoil-note" class="main" type="button">
          Note it as spoiled
        </button>
        <button id="spoil-back" type="button">
          Back
        </button>
      </div>
    </dialog>
  );
}

export function PauseDialog() {
  return (
    <dialog id="pause" aria-labelledby="pause-title">
      <h2 id="pause-title">Pause the stall</h2>
      <p>
        No new orders are taken by text or on the web. When you start again, everybody’s promised time moves
        by as long as the pause was.
      </p>
      <div class="row">
        {PAUSES.map(([value, label]) => (
          <button type="button" data-reason={value}>
            {label}
          </button>
        ))}
        <button id="pause-back" type="button">
          Back
        </button>
      </div>
    </dialog>
  );
}

export function StockDialog() {
  return (
    <dialog id="stock" aria-labelledby="stock-title">
      <h2 id="stock-title">Count or add stock</h2>
      <fieldset class="choices">
        <legend>What is the number?</legend>
        <label>
          <input type="radio" name="stock-way" value="counted" checked />
          All there is, counted
        </label>
        <label>
          <input type="radio" name="stock-way" value="delivered" />
          New ones brought
        </label>
      </fieldset>
      <p>
        Each number is noted as soon as you go on to the next. Count everything not pressed yet, what lies on
        a press included.
      </p>
      <label for="stock-what">Of what</label>
      <select id="stock-what"></select>
      <ul id="stock-rows" class="stock-rows"></ul>
      <p id="stock-said" role="status"></p>
      <p id="stock-short" role="status"></p>
      <button id="stock-done" class="main" type="button">
        Done
      </button>
    </dialog>
  );
}
