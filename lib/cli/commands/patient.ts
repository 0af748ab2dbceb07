import { exportPatient, type PatientJson, patientDocument } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { textTable } from '../table.ts'
import { readWords, WrongWords } from '../words.ts'
import { asOfDay } from './list.ts'

function markerRows(patient: PatientJson): string[][] {
  const point = (at: { value: string; comparator: string | null; collectedOn: string } | null) =>
    at === null ? '-' : `${at.comparator ?? ''}${at.value} (${at.collectedOn})`
  return Object.entries(patient.markers)
    .filter(([, marker]) => marker.samples > 0)
    .map(([name, marker]) => [
      name,
      marker.unit,
      String(marker.samples),
      point(marker.baseline),
      point(marker.lowest),
      marker.lowestConfirmed ?? '-',
      point(marker.current),
      marker.changeFromLowest.percent === null
        ? (marker.changeFromLowest.why ?? '-')
        : `${marker.changeFromLowest.absolute} (${marker.changeFromLowest.percent} %)`,
    ])
}

function patientText(patient: PatientJson): string {
  const head = `${patient.patientId}  ${patient.phase}${patient.care === null ? '' : `, ${patient.care}`}  measurable by: ${patient.measurableBy.join(', ') || 'nothing'}\n\n`
  const markers = textTable(
    ['marker', 'unit', 'samples', 'baseline', 'lowest', 'lowest confirmed', 'current', 'change from lowest'],
    markerRows(patient),
  )
  const findings = patient.findings.map(
    ({ window, rule, state, certainty, cautions, says }) => `  ${window}  ${rule} (${[state, certainty, ...cautions].join(', ')}): ${says}\n`,
  )
  const due = patient.due.map((test) => `  ${test.group}: due ${test.dueOn}${test.daysLate > 0 ? `, ${test.daysLate} days late` : ''}\n`)
  return `${head}${markers}\nfindings\n${findings.join('') || '  none\n'}\ndue tests\n${due.join('') || '  none\n'}`
}

export const patient: Command = {
  words: ['patient'],
  usage: 'ID [--as-of DAY] [--json|--fhir]',
  does: 'one patient: course, markers, findings, due tests',
  async run(args, { terminal, call }) {
    const { values, words } = readWords(
      args,
      { 'as-of': { type: 'string' }, json: { type: 'boolean' }, fhir: { type: 'boolean' } },
      { min: 1, max: 1, called: 'ID' },
    )
    const asOf = asOfDay(values)
    if (values.fhir === true) {
      if (values.json === true) throw new WrongWords('Say either --json or --fhir.')
      const file = await exportPatient(await call(), words[0] ?? '', asOf)
      if (!file.ok) throw new Error(file.reason)
      terminal.out(file.value.text)
      return 0
    }
    const outcome = await patientDocument(await call(), words[0] ?? '', asOf)
    if (!outcome.ok) throw new Error(outcome.reason)
    const { patientId } = outcome.value
    if (patientId !== words[0]) terminal.err(`Record ${words[0]} is joined to patient ${patientId}, who is shown.\n`)
    if (values.json === true) printJson(terminal, outcome.value)
    else {
      terminal.out(patientText(outcome.value))
      terminal.err('Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.\n')
    }
    return 0
  },
}
