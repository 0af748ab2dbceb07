import type { Comparator, LabResult, Quantity } from '../results/index.ts'
import { decimal, exactly, type Interval } from '../units/index.ts'
import type { Measurement, Sample } from './course.ts'

const NOTHING = exactly('0')
const ZERO = decimal('0')

interface Shown {
  readonly value: Interval | null
  readonly printed: Quantity | null
  readonly comparator: Comparator | null
  readonly words: string | null
}

function shown(result: LabResult): Shown {
  const { value, provenance } = result
  switch (value.kind) {
    case 'number':
      return { value: value.kept, printed: value, comparator: value.comparator, words: null }
    case 'not-detected':
      return { value: NOTHING, printed: null, comparator: null, words: 'not detected' }
    case 'present': {
      const limited = value.upTo === null ? null : { low: ZERO, high: value.upTo }
      return { value: limited, printed: null, comparator: limited === null ? null : '<=', words: provenance.valueText }
    }
    default:
      return { value: null, printed: null, comparator: null, words: provenance.valueText }
  }
}

/** The sample one result makes. "Not detected" is 0 exactly; "trace" lies between 0 and the limit the report names, else has no number. */
export function sampleFrom(result: LabResult): Sample {
  const { value, printed, comparator, words } = shown(result)
  return { on: result.collected.on, value, printed, comparator, words, laboratory: result.laboratory, method: result.method, results: [result] }
}

/** True for a sample with a number. */
export function hasNumber(sample: Sample): sample is Measurement {
  return sample.value !== null
}
