/** @jsxImportSource preact */
/** The possible answers, as tiles. */
import { Garment, Swatch } from "../parts/garment.tsx";
import { Tap } from "../parts/tap.tsx";
import type { Tiles as Shown, Tile } from "./shown.ts";

type Props = {
  readonly shown: Shown | null;
  readonly label: string;
  readonly say: (text: string) => void;
};

const classOf = ({ isMain, gone }: Tile, shape: Shown["shape"]): string =>
  `choice${isMain ? " main" : shape === "confirming" ? " quiet" : ""}${gone ? " gone" : ""}`;

function TileFace({ say, label, picture, isSwatch }: Tile) {
  return (
    <>
      {label === say ? null : <span class="choice-number">{say}</span>}
      {picture?.colour !== undefined && isSwatch ? (
        <Swatch look={picture.look} colour={picture.colour} />
      ) : null}
      {label === "" ? null : <span>{label}</span>}
      {picture === null ? null : (
        <Garment look={picture.look} colour={picture.colour} size={picture.size} named />
      )}
    </>
  );
}

/** A list's tiles are its own: a thumb that was over an earlier list never taps the next one's. */
export function Tiles({ shown, label, say }: Props) {
  return (
    <fieldset
      id="choices"
      class={`tiles ${shown?.shape ?? ""}`}
      tabIndex={-1}
      aria-label={label}
      data-keeps-focus=""
    >
      {shown === null || shown.basket.length === 0 ? null : (
        <div key={`${shown.line} basket`} class="drawn-garments basket">
          {shown.basket.map(({ look, colour, size }, at) => (
            <Garment key={at} look={look} colour={colour} size={size} />
          ))}
        </div>
      )}
      {shown?.tiles.map((tile) => (
        <Tap key={`${shown.line} ${tile.say}`} class={classOf(tile, shown.shape)} onTap={() => say(tile.say)}>
          <TileFace {...tile} />
        </Tap>
      ))}
    </fieldset>
  );
}
