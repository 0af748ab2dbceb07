import type { Measurement } from '../../course/index.ts'
import { decimal, decimalText, isExact } from '../../units/index.ts'
import { anyCensored, methodChanged, when } from '../cautions.ts'
import { evidenceOf, keptText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import { hasFallenBy } from '../haemoglobin.ts'
import { type Telling, twoSampleFindings } from '../limit.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { type Usual, usualBefore } from '../usual.ts'

const FALL = decimal('20')

/** True where an earlier sample is high enough for a fall at all: most are not, and the median of the months before takes longer to find. */
function mayHaveFallen(samples: readonly Measurement[], at: number, { value }: Measurement): boolean {
  const least = value.low.plus(FALL)
  return samples.slice(0, at).some((sample) => sample.value.high?.gte(least) ?? true)
}

function usualText({ value }: Usual): string {
  if (isExact(value)) return `${decimalText(value.low)} g/L`
  return value.high === null ? `>=${decimalText(value.low)} g/L` : `<=${decimalText(value.high)} g/L`
}

function tells(usual: Usual, current: Measurement): Telling {
  const fall = isExact(usual.value) && isExact(current.value) ? { fall: decimalText(usual.value.low.minus(current.value.low)) } : {}
  return {
    window: 'within-30-days',
    excess: ratioOf(usual.value.low.minus(FALL), current.value.low),
    cautions: [
      ...when(anyCensored(usual.value) && !anyCensored(current.value), 'censored'),
      ...when(
        usual.samples.some((sample) => methodChanged(sample, current)),
        'method-changed',
      ),
    ],
    evidence: usual.samples.map((sample) => evidenceOf('reference', 'haemoglobin', 'g/L', sample)),
    facts: {
      value: keptText(current, 'g/L'),
      usual: usualText(usual),
      usualFrom: usual.samples[0]?.on ?? '',
      usualTo: usual.samples.at(-1)?.on ?? '',
      usualCount: String(usual.samples.length),
      ...fall,
    },
  }
}

export const haemoglobinFall: CourseRule = {
  id: 'haemoglobin-fall',
  asks: 'Has haemoglobin fallen by at least 20 g/L below the patient’s own usual, the median of the samples 6 to 24 months before?',
  source: '(common practice)',
  check: (course) => {
    if (!isPrecursor(course)) return []
    const { samples } = course.markers.haemoglobin
    const usualAt = (at: number, sample: Measurement) => (mayHaveFallen(samples, at, sample) ? usualBefore(samples, sample.on) : null)
    return twoSampleFindings({
      about: { rule: 'haemoglobin-fall', organDamage: true },
      of: course.markers.haemoglobin,
      holds: (sample, at) => {
        const usual = usualAt(at, sample)
        return usual === null ? 'no' : hasFallenBy(FALL, usual.value, sample.value)
      },
      tells: (sample, at) => {
        const usual = usualAt(at, sample)
        return usual === null ? { window: 'within-30-days', excess: 1, facts: {} } : tells(usual, sample)
      },
    })
  },
}
