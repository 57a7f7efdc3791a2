/** A stall's state and people together, with their changes since the last write. */
import type { Instant } from "../../time/instants.ts";
import type { Command, Decision } from "../rules/commands.ts";
import { step } from "../rules/step.ts";
import type { JournalEntry } from "../state/shapes/event.ts";
import type { StallState } from "../state/state.ts";
import type { Write } from "../state/table.ts";
import { BringForward } from "./bring-forward.ts";
import { People } from "./people.ts";
import {
  journalKey,
  loadRows,
  loadState,
  RECORDS_VERSION,
  type Store,
  WRITE_BEHIND_MOST,
} from "./records.ts";

/** Facts kept in memory only: they are lost when the object is evicted, and noticed again. */
type Noticed = {
  /** When a device of the crew last asked for anything. */
  crewAt: Instant | null;
  /** When a text was last counted. */
  textsAt: Instant;
};

export class UnitOfWork {
  readonly state: StallState;
  readonly people: People;
  readonly forward: BringForward;
  readonly noticed: Noticed = { crewAt: null, textsAt: -1 };
  #entries: JournalEntry[] = [];
  /** The shape of the records; undefined if there are none. */
  #shape: unknown;

  constructor(store: Store) {
    this.forward = new BringForward(store);
    this.state = loadState(store);
    this.people = new People((key) => this.forward.read(key));
    loadRows(store, this.people.tables);
    this.#shape = store.get("records-version");
  }

  /** Carries a command out in memory; its journal entry waits for `take`. */
  carryOut(command: Command, now: Instant): Decision {
    const outcome = step(this.state, command, now);
    const { events } = outcome;
    if (events.length > 0) this.#entries.push({ sequence: this.state.version, at: now, events });
    return outcome;
  }

  /** Everything that must be written now, in one transaction; afterwards nothing is outstanding. */
  drain(): readonly Write[] {
    const facts = [...this.#takeJournal(), ...this.state.drain()];
    for (const number of this.forward.rewritten(facts)) this.people.keepAtOrder(number);
    return [...facts, ...this.people.drain()];
  }

  /**
   * The new entries of the journal. The last one carries the rows that are not written out, unless all are written now.
   */
  #takeJournal(): readonly Write[] {
    const entries = this.#entries;
    const last = entries.at(-1);
    if (last === undefined) return [];
    this.#entries = [];
    const { state } = this;
    const shape: Write[] =
      this.#shape === RECORDS_VERSION ? [] : [["records-version", RECORDS_VERSION], ...this.forward.begin()];
    this.#shape = RECORDS_VERSION;
    if (last.sequence - state.writtenOut >= WRITE_BEHIND_MOST) {
      state.writtenOut = last.sequence;
      return [...shape, ...entries.map(written), ...state.writeBehind.flatMap((table) => table.drain())];
    }
    const ahead = state.writeBehind.flatMap((table) => table.takeUnwritten());
    return [...shape, ...entries.map((entry) => written({ ...entry, ahead: entry === last ? ahead : [] }))];
  }
}

const written = (entry: JournalEntry): Write => [journalKey(entry.sequence), entry];
