/** A stall's state and people together, and what has been done to them since they were last written. */
import type { Command } from "./commands.ts";
import type { Instant } from "./facts.ts";
import { People } from "./people.ts";
import { journalKey, loadRows, loadState, RECORDS_VERSION, type Store } from "./records.ts";
import type { StallState } from "./state.ts";
import { type Outcome, step } from "./step.ts";
import type { Write } from "./table.ts";

/** What the object notices and does not write down: after it slept it notices again. */
type Noticed = {
  /** When a device of the crew last asked for anything. */
  crewAt: Instant | null;
  /** When a text was last counted. */
  textsAt: Instant;
};

export class Books {
  readonly state: StallState;
  readonly people: People;
  readonly noticed: Noticed = { crewAt: null, textsAt: -1 };
  #unwritten: Write[] = [];

  constructor(store: Store) {
    this.state = loadState(store);
    this.people = new People((key) => store.get(key));
    loadRows(store, this.people.tables);
  }

  /** Carries a command out in memory; its journal entry waits for `take`. */
  carryOut(command: Command, now: Instant): Outcome {
    const outcome = step(this.state, command, now);
    if (outcome.events.length === 0) return outcome;
    const sequence = this.state.version;
    if (sequence === 1) this.#unwritten.push(["records-version", RECORDS_VERSION]);
    this.#unwritten.push([journalKey(sequence), { sequence, at: now, events: outcome.events }]);
    return outcome;
  }

  /** Everything that must be written now, in one transaction; afterwards nothing is outstanding. */
  take(): readonly Write[] {
    const writes = [...this.#unwritten, ...this.state.take(), ...this.people.take()];
    this.#unwritten = [];
    return writes;
  }
}
