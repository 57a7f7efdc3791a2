/** Adding up many buckets: the sum is changed in place, since an organiser's page adds up tens of thousands. */
import { mergeInto } from "../maths/log-histogram.ts";
import { type Bucket, EMPTY_BUCKET, TALLY_FIELDS } from "../time/bucket.ts";

type Histogram = Record<string, number>;
type Growing = { -readonly [Field in keyof Bucket]: Bucket[Field] } & { waits: Histogram; over: Histogram };

/** A sum of buckets that grows. */
export class BucketSum {
  readonly #sum: Growing = { ...EMPTY_BUCKET, waits: {}, over: {} };

  add(bucket: Bucket): void {
    const sum = this.#sum;
    for (const field of TALLY_FIELDS) sum[field] += bucket[field];
    sum.takings += bucket.takings;
    sum.backlogChange += bucket.backlogChange;
    mergeInto(sum.waits, bucket.waits);
    mergeInto(sum.over, bucket.over);
  }

  /** The sum so far. The object is live: it changes with the next addition. */
  get value(): Bucket {
    return this.#sum;
  }
}
