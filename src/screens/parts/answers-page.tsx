/** A page of short answers that works without a script: help, what a problem means, what has changed in the API. */
import type { Child, PropsWithChildren } from "hono/jsx";
import { type Spelling, spelt } from "../../model/basics/region.ts";
import { AppBar, NightSwitch } from "./app-bar.tsx";
import { Page } from "./layout.tsx";

type Props = PropsWithChildren<{
  readonly title: string;
  readonly back: { readonly href: string; readonly label: string };
  /** Each with the sentences that answer it. */
  readonly questions: readonly { readonly question: Child; readonly answers: readonly string[] }[];
  readonly spelling: Spelling;
}>;

/** The children stand below the answers. */
export function AnswersPage({ title, back, questions, spelling, children }: Props) {
  return (
    <Page title={title} screen="help-page" script={false} styles={["start"]}>
      <AppBar title={title}>
        <a class="button" href={back.href}>
          {back.label}
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" tabindex={-1}>
        <dl class="answers">
          {questions.map(({ question, answers }) => (
            <div>
              <dt>{question}</dt>
              {answers.map((answer) => (
                <dd>{spelt(answer, spelling)}</dd>
              ))}
            </div>
          ))}
        </dl>
        {children}
      </main>
    </Page>
  );
}

/** The way back from a page that help leads to. */
export const TO_HELP = { href: "/help", label: "Help" } as const;
