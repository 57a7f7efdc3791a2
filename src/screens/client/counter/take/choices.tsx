/** @jsxImportSource preact */
/** Choices of which one is taken, each as a tile to tap. */
import type { Option } from "./pad.ts";

type ChoicesProps = {
  readonly id: string;
  readonly legend: string;
  readonly options: readonly Option[];
  readonly choose: (value: string) => void;
  /** What an option looks like. */
  readonly picture?: (value: string) => preact.ComponentChildren;
};

export function Choices({ id, legend, options, choose, picture }: ChoicesProps) {
  return (
    <fieldset id={id} class="choices" hidden={options.length === 0}>
      <legend>{legend}</legend>
      {options.map(({ value, label, gone, chosen }) => (
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
