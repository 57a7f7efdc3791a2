/** Help: its contents with a search, a page for each subject, and all of it as a booklet to print. */
import { type Spelling, spelt } from "../../../model/basics/region.ts";
import { TO_HELP } from "../../parts/answers-page.tsx";
import { AppBar, NightSwitch } from "../../parts/app-bar.tsx";
import { Page } from "../../parts/layout.tsx";
import { type HelpSubject, type Line, placeOf } from "./answer.ts";
import { SUBJECTS } from "./subjects.ts";

const CAUTIONS =
  "A platen at working heat burns on touch, and goes on burning for a long time after it is switched off. Keep children and customers out of reach, never leave a press closed or unattended, let fumes out, and keep cables out of the wet. For power, tents, fire and load, local rules and licensed people decide.";

type Spelled = { readonly spelling: Spelling };

function AnswerLine({ line, spelling }: Spelled & { readonly line: Line }) {
  if (typeof line === "string") return <dd>{spelt(line, spelling)}</dd>;
  if ("run" in line)
    return (
      <dd>
        <code class="run">{line.run}</code>
      </dd>
    );
  return (
    <dd>
      <a href={line.to}>{spelt(line.says, spelling)}</a>
    </dd>
  );
}

function Answers({ subject, spelling }: Spelled & { readonly subject: HelpSubject }) {
  return (
    <dl class="answers">
      {subject.answers.map(([question, ...lines]) => (
        <div id={placeOf(question)}>
          <dt>{spelt(question, spelling)}</dt>
          {lines.map((line) => (
            <AnswerLine line={line} spelling={spelling} />
          ))}
        </div>
      ))}
    </dl>
  );
}

const Cautions = () => <p class="notice asked">{CAUTIONS}</p>;

/** The contents, and a search through all of it. */
export function HelpPage({ spelling }: Spelled) {
  return (
    <Page title="Help" screen="help-contents" styles={["start"]}>
      <AppBar title="Help">
        <a class="button" href="/">
          All pages
        </a>
        <a class="button" href="/help/booklet">
          Booklet to print
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" tabindex={-1}>
        <search class="asked no-print">
          <label for="sought">Search help</label>
          <input id="sought" type="search" autocomplete="off" placeholder="spoiled" />
        </search>
        <p id="found-said" role="status"></p>
        <dl id="found" class="answers"></dl>
        <nav id="contents" aria-label="Contents">
          {SUBJECTS.map(({ id, title, lead, answers }) => (
            <section>
              <h2>
                <a href={`/help/${id}`}>{spelt(title, spelling)}</a>
              </h2>
              <p class="small">{spelt(lead, spelling)}</p>
              <details>
                <summary>{`${answers.length} questions`}</summary>
                <ul class="ruled">
                  {answers.map(([question]) => (
                    <li>
                      <a href={`/help/${id}#${placeOf(question)}`}>{spelt(question, spelling)}</a>
                    </li>
                  ))}
                </ul>
              </details>
            </section>
          ))}
        </nav>
        <Cautions />
        <p id="offline-said" class="small" hidden>
          These pages are kept in this browser, and open without a network.
        </p>
      </main>
    </Page>
  );
}

/** The page of a subject. */
export function HelpSubjectPage({ subject, spelling }: Spelled & { readonly subject: HelpSubject }) {
  const title = spelt(subject.title, spelling);
  return (
    <Page title={title} screen="help-page" script={false} styles={["start"]}>
      <AppBar title={title}>
        <a class="button" href={TO_HELP.href}>
          {TO_HELP.label}
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" tabindex={-1}>
        <p>{spelt(subject.lead, spelling)}</p>
        <Answers subject={subject} spelling={spelling} />
      </main>
    </Page>
  );
}

/** Every subject on one page, each beginning a sheet. */
export function HelpBooklet({ spelling }: Spelled) {
  return (
    <Page title="Help, the booklet" screen="help-page" script={false} styles={["start"]}>
      <AppBar title="Help, the booklet">
        <a class="button" href={TO_HELP.href}>
          {TO_HELP.label}
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" class="booklet" tabindex={-1}>
        <p class="no-print">Print this page: each subject begins a new sheet.</p>
        <Cautions />
        <nav aria-label="Contents">
          <ol class="bullets">
            {SUBJECTS.map(({ id, title }) => (
              <li>
                <a href={`#subject-${id}`}>{spelt(title, spelling)}</a>
              </li>
            ))}
          </ol>
        </nav>
        {SUBJECTS.map((subject) => (
          <section id={`subject-${subject.id}`} data-subject={subject.id}>
            <h2>{spelt(subject.title, spelling)}</h2>
            <p>{spelt(subject.lead, spelling)}</p>
            <Answers subject={subject} spelling={spelling} />
          </section>
        ))}
      </main>
    </Page>
  );
}
