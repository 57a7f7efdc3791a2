/** To be drawn. */
import { Freshness, Page } from "./layout.tsx";

export function OrganiserPage({ fair }: { readonly fair: string }) {
  return (
    <Page title="Fair" screen="organiser" data={{ fair }}>
      <main>
        <h1>Fair</h1>
        <Freshness />
      </main>
    </Page>
  );
}
