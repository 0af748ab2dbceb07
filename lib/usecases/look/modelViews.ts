import { disagreement, type FallPart, modelPage, responseParts, riskParts } from '../../models/index.ts'
import { keptText } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'
import { type Holds, roundedText } from '../../units/index.ts'
import type { FallView, LookView, ResponsePartsView } from './views.ts'

const HOLDS: Readonly<Record<Holds, string>> = { certain: 'met', possible: 'open: known only as a limit', no: 'not met' }

function saysWords(says: FallPart['says']['PR']): string {
  if (typeof says === 'object') return `missing: ${says.missing}`
  return says === 'not-needed' ? 'not needed' : says === 'met' ? 'met' : 'not met'
}

function fallView({ part, unit, baseline, current, fall, says }: FallPart): FallView {
  const shown = (sample: typeof baseline) => (sample === null ? null : `${keptText(sample, unit)} on ${sample.on}`)
  return {
    part,
    baseline: shown(baseline),
    current: shown(current),
    fall: fall === null ? null : roundedText(fall, 1),
    says: { VGPR: saysWords(says.VGPR), PR: saysWords(says.PR), MR: saysWords(says.MR) },
  }
}

/** Response and risk with their parts. */
export function modelViews({ course, risk }: Assessment): Pick<LookView, 'response' | 'risk' | 'disagreement'> {
  const parts = responseParts(course)
  const response: ResponsePartsView | null =
    parts === null
      ? null
      : {
          falls: parts.falls.map(fallView),
          complete: parts.complete.map(({ asks, holds, otherwise }) => ({ asks, is: holds === null ? `missing: ${otherwise}` : HOLDS[holds] })),
          progressed: parts.progressed,
        }
  const apart = disagreement(risk).map(({ model, group, percent, horizon }) => {
    const within = percent === null ? '' : `, ${percent} % at ${horizon}`
    return `${modelPage(model).title} says ${group}${within}`
  })
  return {
    response,
    risk: risk.map(({ model }) => ({
      model,
      parts: riskParts(course, model).map(({ met, ...part }) => ({ ...part, met: met === null ? 'not known' : HOLDS[met] })),
    })),
    disagreement: apart.length === 0 ? null : `The models disagree, and all are shown: ${apart.join('; ')}.`,
  }
}
