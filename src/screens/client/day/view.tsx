/** @jsxImportSource preact */
/** The day so far: one sentence, three figures, and advice on what runs out or will be left. */
import type { Shown } from "./state.ts";

export function SoFar({ shown }: { readonly shown: Shown | null }) {
  if (shown === null)
    return (
      <p class="verdict">
        This stall has no plan yet. Tap “Use this plan at the stall” on the planning page, and this page
        compares the day with it.
      </p>
    );
  return (
    <>
      <p class="verdict" role="status">
        {shown.verdict}
      </p>
      <dl class="figures-row">
        {shown.figures.map(([label, figure]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{figure}</dd>
          </div>
        ))}
      </dl>
      {shown.lists.length === 0 ? <p>Nothing runs out, and nothing much will be left.</p> : null}
      {shown.lists.map(({ title, lines }) => (
        <section key={title} class="figures" aria-label={title}>
          <table>
            <caption>{title}</caption>
            <tbody>
              {lines.map(({ name, says }) => (
                <tr key={name}>
                  <th scope="row">{name}</th>
                  <td class="number">{says}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ))}
    </>
  );
}
