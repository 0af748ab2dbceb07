import type { FindingView, LookView, PatientView } from '../../../lib/usecases/index.ts'
import { counted } from '../words.ts'
import type { PatientActs } from './acts.ts'
import { Finding } from './Findings.tsx'
import { FindingWork } from './FindingWork.tsx'
import './work.css'

interface Props {
  readonly patient: PatientView & { readonly look?: Pick<LookView, 'sumOf'> }
  readonly acts: PatientActs
}

const waits = ({ answered }: FindingView) => answered === null

/**
 * A finding's key begins with its rule and what it is about; the rest is its evidence, which changes. Placed by the former alone, a finding that is answered
 * or gets new evidence takes its forms along, with what is typed in them, the message and the focus.
 */
function placeOf({ key }: FindingView): string {
  return (JSON.parse(key) as unknown[]).slice(0, 2).join(' ')
}

/** What the latest samples show: first what waits for somebody, then what was answered. Stands under its own heading of level 2. */
export function CurrentFindings({ patient, acts }: Props) {
  const { findings } = patient
  if (findings.length === 0) return <p>Nothing is found in the latest samples.</p>
  const waiting = findings.filter(waits)
  const answered = findings.filter((finding) => !waits(finding))
  const places = findings.map(placeOf)
  const isAlone = (finding: FindingView) => places.filter((place) => place === placeOf(finding)).length === 1
  const drawn = (finding: FindingView) => (
    <Finding key={isAlone(finding) ? placeOf(finding) : finding.key} finding={finding} sum={patient.look?.sumOf[findings.indexOf(finding)] ?? null}>
      <FindingWork finding={finding} patient={patient} acts={acts} />
    </Finding>
  )
  return [
    waiting.length === 0 && <p key="none">Every finding is answered; none waits for anybody.</p>,
    ...waiting.map(drawn),
    answered.length > 0 && (
      <h2 className="answered-head" key="answered">
        {counted(answered.length, 'answered finding')}
      </h2>
    ),
    ...answered.map(drawn),
  ]
}
