import { isDanger } from '../../../lib/review/index.ts'
import type { RuleId } from '../../../lib/rules/index.ts'
import { addDays, type Day } from '../../../lib/time/index.ts'
import type { FindingView, PatientView } from '../../../lib/usecases/index.ts'
import { TakeBack } from '../answer/index.ts'
import { AnswerForm } from './AnswerForm.tsx'
import type { PatientActs } from './acts.ts'
import { CauseForm } from './CauseForm.tsx'
import { FindingRecord, TAKEN_BACK } from './FindingRecord.tsx'

interface Props {
  readonly finding: FindingView
  readonly patient: Pick<PatientView, 'patientId' | 'asOf' | 'bringBackAtMost' | 'answerChoices'>
  readonly acts: PatientActs
}

/** What people said of a finding, and what the reader may say of it. The words are printed, the forms are not. */
export function FindingWork({ finding, patient, acts }: Props) {
  const { rule, key, title, answered, attribution, attributable, lastDone, takeBack } = finding
  const danger = isDanger(rule as RuleId)
  const about = { patientId: patient.patientId, rule, key }
  const from: Day = addDays(patient.asOf, 1)
  return (
    <div className="finding-work">
      <FindingRecord finding={finding} />
      <div className="disclosures">
        {acts.answer !== null && (
          <AnswerForm
            act={acts.answer}
            about={{ ...about, lastDone: String(lastDone) }}
            title={title}
            choices={patient.answerChoices}
            danger={danger}
            once={rule === TAKEN_BACK}
            answered={answered !== null}
            from={from}
            atMost={patient.bringBackAtMost}
          />
        )}
        {acts.takeBack !== null && <TakeBack act={acts.takeBack} patientId={patient.patientId} decisionId={takeBack} title={title} />}
        {acts.attribute !== null && acts.withdraw !== null && (attributable || attribution !== null) && (
          <CauseForm attribute={acts.attribute} withdraw={acts.withdraw} about={about} title={title} attribution={attribution} />
        )}
      </div>
    </div>
  )
}
