/** @jsxImportSource preact */
/** This fair beside an earlier one. */
import type { Throughput } from "../../../../model/fair/throughput.ts";
import { Tap } from "../../parts/tap.tsx";
import { type EarlierFair, stallYears, yearRows } from "./years.ts";

export type Years = {
  readonly earlier: EarlierFair | null;
  /** This fair in all; null until it was asked for. */
  readonly whole: Throughput | null;
  readonly fault: string | null;
};

export type YearActions = {
  readonly save: () => void;
  readonly open: (file: File) => void;
  readonly close: () => void;
};

function Tables({ whole, earlier }: { readonly whole: Throughput; readonly earlier: EarlierFair }) {
  return (
    <>
      <div class="wide">
        <table id="years">
          <caption>{`${whole.fair} beside ${earlier.fair}`}</caption>
          <thead>
            <tr>
              {["Figure", "So far", "Then, by this day and time", "Change", "Then, in all"].map(
                (heading, n) => (
                  <th key={heading} scope="col" class={n === 0 ? undefined : "number"}>
                    {heading}
                  </th>
                ),
              )}
            </tr>
          </thead>
          <tbody>
            {yearRows(whole, earlier).map(({ of, now, byNow, change, inAll }) => (
              <tr key={of}>
                <th scope="row">{of}</th>
                {[now, byNow ?? "", change ?? "", inAll].map((text, n) => (
                  <td key={n} class="number">
                    {text}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <details>
        <summary>Garments pressed, by stall</summary>
        <table>
          <thead>
            <tr>
              <th scope="col">Stall</th>
              <th scope="col" class="number">
                So far
              </th>
              <th scope="col" class="number">
                Then, in all
              </th>
            </tr>
          </thead>
          <tbody>
            {stallYears(whole, earlier).map(({ name, now, inAll }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td class="number">{now}</td>
                <td class="number">{inAll}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </>
  );
}

export function BesideLastYear({ years, actions }: { readonly years: Years; readonly actions: YearActions }) {
  const { earlier, whole, fault } = years;
  return (
    <details id="beside" class={earlier === null ? "no-print" : undefined} open={earlier !== null}>
      <summary>Beside last year</summary>
      <p class="no-print">
        After a fair, save its figures. Next year, open that file here. It holds no names and no numbers of
        people.
      </p>
      <p class="row no-print">
        <Tap id="years-save" onTap={actions.save}>
          Save this fair’s figures
        </Tap>
        <label class="button" for="years-file">
          Open last year’s file
        </label>
        <input
          id="years-file"
          class="offstage"
          type="file"
          accept=".json,application/json"
          onChange={({ currentTarget }) => {
            const [file] = currentTarget.files ?? [];
            if (file !== undefined) actions.open(file);
            currentTarget.value = "";
          }}
        />
        {earlier === null ? null : <Tap onTap={actions.close}>Close it</Tap>}
      </p>
      <p class="fault" role="status">
        {fault ?? ""}
      </p>
      {earlier === null || whole === null ? null : <Tables whole={whole} earlier={earlier} />}
    </details>
  );
}
