/** @jsxImportSource preact */
/** Choices of which one is taken, each as a tile to tap. */
import type { ComponentChildren } from "preact";

export type Option<T extends string = string> = {
  readonly value: T;
  readonly label: string;
  /** Sold out: shown, and not to be chosen. */
  readonly gone?: boolean;
  readonly chosen: boolean;
};

type ChoicesProps<T extends string> = {
  readonly id: string;
  readonly legend: string;
  readonly options: readonly Option<T>[];
  readonly choose: (value: T) => void;
  /** The picture of an option. */
  readonly picture?: (value: T) => ComponentChildren;
};

export function Choices<T extends string>({ id, legend, options, choose, picture }: ChoicesProps<T>) {
  return (
    <fieldset id={id} class="choices" hidden={options.length === 0}>
      <legend>{legend}</legend>
      {options.map(({ value, label, gone = false, chosen }) => (
        <label key={value} class={gone ? "gone" : undefined}>
          <input
            type="radio"
            name={id}
            value={value}
            checked={chosen}
            disabled={gone}
            onChange={() => choose(value)}
          />
          {picture?.(value)}
          <span>{gone ? `${label}: gone` : label}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** The options of a question that has no pictures and nothing sold out. */
export const optionsOf = <T extends string>(
  answers: readonly (readonly [value: T, label: string])[],
  chosen: T | null,
): readonly Option<T>[] => answers.map(([value, label]) => ({ value, label, chosen: value === chosen }));
