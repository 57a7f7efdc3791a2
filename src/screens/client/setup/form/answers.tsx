/** @jsxImportSource preact */
/** The stall's answers to people's questions, in each language; beside each the reply if it is left empty. */
import { unwrittenAnswer } from "../../../../chat/advice.ts";
import type { Language } from "../../../../model/basics/words.ts";
import { AnswerSubject } from "../../../../model/menu/answers.ts";
import type { FormContext } from "../actions.ts";
import { Entries } from "./entry.tsx";
import { answerFields } from "./rules.ts";

const helpOf = ({ state, shown }: FormContext, subject: AnswerSubject, language: Language): string => {
  if (subject === "hours") return "Empty: until when you are open, by the fair’s hours.";
  if (subject === "place") return "Empty: to look for your stall’s name at the fair.";
  // While the menu has a fault, use the last valid one.
  const menu = shown.checked.menu ?? state.looked?.menu ?? null;
  return menu === null ? "" : `Empty: “${unwrittenAnswer(menu, subject, language)}”`;
};

export const AnswersPart = ({ desk }: { readonly desk: FormContext }) => (
  <section class="within" aria-labelledby="answers-title">
    <h3 id="answers-title" tabIndex={-1}>
      Answers
    </h3>
    <p class="lead">
      What people ask is answered at any step, in at most 110 letters. Prices and waits are worked out.
    </p>
    <details class="advanced">
      <summary>Write your own</summary>
      {AnswerSubject.options.map((subject) => (
        <Entries
          key={subject}
          fields={answerFields(subject, (language) => helpOf(desk, subject, language))}
          desk={desk}
        />
      ))}
    </details>
  </section>
);
