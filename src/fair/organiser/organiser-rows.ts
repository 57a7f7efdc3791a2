/** The organiser's announcements, with who has read them, and the stop of all orders. */
import type { StallId } from "../../model/basics/ids.ts";
import type {
  AnnouncementId,
  OrderStop,
  OrganiserNews,
  SentAnnouncement,
} from "../../model/fair/organising.ts";
import type { Instant } from "../../time/instants.ts";
import type { OrganiserWord, StallReport } from "../reports.ts";
import type { Rows } from "../rows.ts";

type StopRow = OrderStop & { readonly since: Instant };
export type AnnouncementRow = {
  readonly id: AnnouncementId;
  readonly text: string;
  readonly at: Instant;
  /** Null: to every stall. */
  readonly stalls: readonly StallId[] | null;
  readonly readBy: Readonly<Record<string, Instant>>;
  /** The write that made it, so that its repeat is known. */
  readonly madeBy: string;
};

const PREFIX = "announcement:";
/** Announcements that are kept; the oldest go first. */
const KEPT = 20;

export class OrganiserRows {
  readonly #rows: Rows;

  constructor(rows: Rows) {
    this.#rows = rows;
  }

  get #stop(): StopRow | null {
    return this.#rows.get<StopRow>("order-stop") ?? null;
  }

  /** Why all orders are stopped, or null. */
  get stopReason(): string | null {
    return this.#stop?.reason ?? null;
  }

  get #edition(): number {
    return this.#rows.get<number>("organiser-edition") ?? 0;
  }

  #nextEdition(): void {
    this.#rows.put("organiser-edition", this.#edition + 1);
  }

  /** The latest last. */
  #announcements(): readonly AnnouncementRow[] {
    const rows = [...this.#rows.list<AnnouncementRow>({ prefix: PREFIX })].map(([, row]) => row);
    return rows.sort((one, other) => one.at - other.at);
  }

  /** The word for one stall. */
  word(stall: StallId): OrganiserWord {
    const stop = this.#stop;
    return {
      edition: this.#edition,
      stop: stop && { reason: stop.reason, pressing: stop.pressing },
      announcements: this.#announcements()
        .filter(({ stalls }) => stalls === null || stalls.includes(stall))
        .map(({ id, text, at }) => ({ id, text, at })),
    };
  }

  /** Stops all orders, or lets the stalls go on; whether that is news. */
  setStop(stop: OrderStop | null, now: Instant): boolean {
    const before = this.#stop;
    if (before?.reason === stop?.reason && before?.pressing === stop?.pressing) return false;
    if (stop === null) this.#rows.delete("order-stop");
    else this.#rows.put("order-stop", { ...stop, since: before?.since ?? now } satisfies StopRow);
    this.#nextEdition();
    return true;
  }

  /** The announcement that a write made before. */
  madeBy(scope: string): AnnouncementRow | undefined {
    return this.#announcements().find(({ madeBy }) => madeBy === scope);
  }

  announce(row: AnnouncementRow): void {
    this.#rows.put(PREFIX + row.id, row);
    for (const { id } of this.#announcements().slice(0, -KEPT)) this.#rows.delete(PREFIX + id);
    this.#nextEdition();
  }

  /** Withdraws an announcement: screens that show it unread drop it. Returns the stalls to inform, or null. */
  takeBack(id: AnnouncementId): Pick<AnnouncementRow, "stalls"> | null {
    const row = this.#rows.get<AnnouncementRow>(PREFIX + id);
    if (row === undefined) return null;
    this.#rows.delete(PREFIX + id);
    this.#nextEdition();
    return row;
  }

  /** Notes what a stall says that its crew has read. */
  noteRead({ stall, read }: Pick<StallReport, "stall" | "read">): void {
    for (const [id, at] of read) {
      const row = this.#rows.get<AnnouncementRow>(PREFIX + id);
      if (row === undefined || row.readBy[stall] !== undefined) continue;
      this.#rows.put(PREFIX + id, {
        ...row,
        readBy: { ...row.readBy, [stall]: at },
      } satisfies AnnouncementRow);
    }
  }

  /** All of it as the organiser sees it, given the fair's stalls and those that the latest has not reached. */
  news(stalls: readonly StallId[], untold: readonly StallId[]): OrganiserNews {
    const stop = this.#stop;
    return {
      stop: stop && { ...stop, since: new Date(stop.since).toISOString() },
      announcements: this.#announcements()
        .toReversed()
        .map((row) => sent(row, stalls)),
      untold: [...untold],
    };
  }
}

/** An announcement as its organiser sees it. */
export function sent(
  { id, text, at, stalls, readBy }: AnnouncementRow,
  all: readonly StallId[],
): SentAnnouncement {
  const to = stalls ?? all;
  const read = to.flatMap((stall) => {
    const readAt = readBy[stall];
    return readAt === undefined ? [] : [{ stall, at: new Date(readAt).toISOString() }];
  });
  return {
    id,
    text,
    at: new Date(at).toISOString(),
    stalls: stalls === null ? null : [...stalls],
    readBy: read,
    unreadBy: to.filter((stall) => readBy[stall] === undefined),
  };
}
