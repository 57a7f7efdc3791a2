/**
 * Every ask of every scenario, side by side in flat arrays: a thousand days of a busy stall are a
 * million asks, and objects for them would not fit. Asks of scenario s are those from starts[s] up to
 * starts[s + 1], in the order they come. One ask is one garment.
 */
export type Scenarios = {
  readonly count: number;
  readonly starts: Int32Array;
  readonly passersBy: Float64Array;
  readonly orders: Int32Array;
  /** Minutes after midnight. */
  readonly minute: Float32Array;
  readonly product: Uint16Array;
  /** The customer's reaction if it is out: 0 walks, 1 takes another colour, 2 another design, 3 a neighbouring size. */
  readonly reaction: Uint8Array;
  /** Minutes the customer is ready to wait. */
  readonly patience: Float32Array;
  /** Garments spoiled before this one comes out right. */
  readonly spoils: Uint8Array;
  /** 1 at the start of an order. */
  readonly opens: Uint8Array;
};

export type AskList = {
  readonly length: () => number;
  readonly add: (
    minute: number,
    product: number,
    reaction: number,
    patience: number,
    spoils: number,
    opens: boolean,
  ) => void;
  readonly done: () => Pick<Scenarios, "minute" | "product" | "reaction" | "patience" | "spoils" | "opens">;
};

/** A list of asks that grows as it is filled. */
export function growingAsks(room: number): AskList {
  let length = 0;
  let capacity = room;
  let minute = new Float32Array(capacity);
  let product = new Uint16Array(capacity);
  let reaction = new Uint8Array(capacity);
  let patience = new Float32Array(capacity);
  let spoils = new Uint8Array(capacity);
  let opens = new Uint8Array(capacity);

  const grow = () => {
    capacity = Math.ceil(capacity * 1.3) + 64;
    minute = moved(minute, new Float32Array(capacity));
    product = moved(product, new Uint16Array(capacity));
    reaction = moved(reaction, new Uint8Array(capacity));
    patience = moved(patience, new Float32Array(capacity));
    spoils = moved(spoils, new Uint8Array(capacity));
    opens = moved(opens, new Uint8Array(capacity));
  };

  return {
    length: () => length,
    add: (atMinute, ofProduct, reacts, waits, spoiled, isFirst) => {
      if (length === capacity) grow();
      minute[length] = atMinute;
      product[length] = ofProduct;
      reaction[length] = reacts;
      patience[length] = waits;
      spoils[length] = spoiled;
      opens[length] = isFirst ? 1 : 0;
      length++;
    },
    done: () => ({
      minute: minute.subarray(0, length),
      product: product.subarray(0, length),
      reaction: reaction.subarray(0, length),
      patience: patience.subarray(0, length),
      spoils: spoils.subarray(0, length),
      opens: opens.subarray(0, length),
    }),
  };
}

function moved<Kind extends { set: (from: Kind) => void }>(from: Kind, to: Kind): Kind {
  to.set(from);
  return to;
}

/** The fewest days that represent all, however many requests they have. */
const LEAST_DAYS = 12;

/** The first days of the scenarios with about this many asks together; the scenarios themselves if they have no more. */
export function upToAsks(scenarios: Scenarios, asks: number): Scenarios {
  const days = daysOfAsks(scenarios, asks);
  return days >= scenarios.count ? scenarios : firstDays(scenarios, days);
}

/** The number of these scenarios' days that have about this many requests. */
export function daysOfAsks({ count, starts }: Scenarios, asks: number): number {
  const aDay = Math.max(1, (starts[count] ?? 0) / count);
  return Math.max(LEAST_DAYS, Math.round(asks / aDay));
}

/** The first `most` scenarios, sharing memory with all of them. */
function firstDays(scenarios: Scenarios, most: number): Scenarios {
  const count = Math.min(most, scenarios.count);
  const end = scenarios.starts[count] ?? 0;
  return {
    count,
    starts: scenarios.starts.subarray(0, count + 1),
    passersBy: scenarios.passersBy.subarray(0, count),
    orders: scenarios.orders.subarray(0, count),
    minute: scenarios.minute.subarray(0, end),
    product: scenarios.product.subarray(0, end),
    reaction: scenarios.reaction.subarray(0, end),
    patience: scenarios.patience.subarray(0, end),
    spoils: scenarios.spoils.subarray(0, end),
    opens: scenarios.opens.subarray(0, end),
  };
}
