import { type Course, isKnownDrug, type TreatmentLine } from '../../course/index.ts'
import type { FindingChange, LabResult } from '../../results/index.ts'
import { correctionText, type Finding } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'

export const NOT_SHOWN = 'text not shown'

/** True for what a person in the laboratory typed freely: an immunofixation, or why there is no value. Every other value was read word for word. */
function isTyped({ value: { kind } }: LabResult): boolean {
  return kind === 'immunofixation' || kind === 'none'
}

/** A result whose value as received tells no more than what was read of it. */
export function withoutText(result: LabResult): LabResult {
  const provenance = { ...result.provenance, fileName: '', ...(isTyped(result) ? { valueText: NOT_SHOWN, unitText: '' } : {}) }
  return { ...result, accession: null, provenance }
}

function changeWithout(change: FindingChange): FindingChange {
  return { ...change, corrections: change.corrections.map(({ replaced, by }) => ({ replaced: withoutText(replaced), by: withoutText(by) })) }
}

/** Whether it is told who of the clinic reviewed something: on a page it is, in a file that leaves the program it is not. */
export interface Telling {
  readonly staff: boolean
}

/** From filtration, creatinine and sex the age follows to a year or two, from several of them closer; and reports are told as received. */
function factsWithout({ facts }: Finding, change: FindingChange | undefined, { staff }: Telling): Finding['facts'] {
  const { filtration: _, filtrationBy: __, ...told } = facts
  if (told.corrected === undefined) return told
  const corrected = change === undefined ? NOT_SHOWN : change.corrections.map(correctionText).join('; ')
  return { ...told, corrected, ...(staff ? {} : { reviewed: 'somebody of the clinic' }) }
}

function findingWithout({ saidThen: _, ...finding }: Finding, change: FindingChange | undefined, telling: Telling): Finding {
  const evidence = finding.evidence.map((one) => (one.analyte.endsWith('immunofixation') ? { ...one, value: NOT_SHOWN } : one))
  return { ...finding, evidence, facts: factsWithout(finding, change, telling) }
}

// A drug by a name that is no drug's was typed by somebody, into a file or a form.
function courseWithout(course: Course): Course {
  const plain = ({ regimen, ...line }: TreatmentLine): TreatmentLine => ({
    ...line,
    regimen: regimen.map((drug) => (isKnownDrug(drug) ? drug : 'a drug not shown here')),
  })
  return { ...course, lines: course.lines.map(plain), line: course.line === null ? null : plain(course.line) }
}

/**
 * The same assessment without what people or laboratories typed and without what tells the age: the same findings, in the same order and windows. What
 * people typed in their decisions stays in it, for the view to leave out. Pure.
 */
export function withoutTexts(assessment: Assessment, telling: Telling = { staff: true }): Assessment {
  const changes = new Map([...assessment.changes].map(([finding, change]) => [finding, changeWithout(change)] as const))
  const all = [...assessment.findings, ...assessment.history]
  const plain = new Map(all.map((finding) => [finding, findingWithout(finding, changes.get(finding), telling)] as const))
  const of = (finding: Finding): Finding => plain.get(finding) ?? findingWithout(finding, changes.get(finding), telling)
  const keyed = <T>(map: ReadonlyMap<Finding, T>): ReadonlyMap<Finding, T> =>
    new Map([...map].map(([finding, value]) => [of(finding), value] as const))
  return {
    ...assessment,
    course: courseWithout(assessment.course),
    known: { ...assessment.known, results: assessment.known.results.map(withoutText) },
    findings: assessment.findings.map(of),
    open: assessment.open.map(of),
    history: assessment.history.map(of),
    answers: keyed(assessment.answers),
    handovers: keyed(assessment.handovers),
    attributions: keyed(assessment.attributions),
    changes: keyed(changes),
  }
}
