/** The part of a Durable Object's synchronous key-value store that a fair's rows need. */
export type Rows = {
  readonly get: <T>(key: string) => T | undefined;
  readonly put: (key: string, value: unknown) => void;
  readonly delete: (key: string) => boolean;
  readonly list: <T>(options: {
    readonly prefix: string;
    /** The first key, itself included. */
    readonly start?: string;
    readonly limit?: number;
  }) => Iterable<[key: string, value: T]>;
};
