import type { Course } from '../../course/index.ts'
import { immunoglobulinRise, serumRise } from '../criterion/markerRises.ts'
import { judgeRise, type Rising } from '../criterion/rising.ts'
import type { Finding } from '../finding.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfJudged, type Judged } from '../runs.ts'
import { SOURCES } from '../sources.ts'

function judgedBy(rise: Rising): Judged {
  return { about: { rule: 'pd-serum', organDamage: false }, samples: rise.of.window, judge: judgeRise(rise) }
}

const nameOf = ({ heavyChain }: Course): string => `Ig${heavyChain}`

function byImmunoglobulin(course: Course): Finding[] {
  const rise = immunoglobulinRise(course)
  const name = nameOf(course)
  return rise === null ? [] : findingsOfJudged([judgedBy(rise)]).map((finding) => ({ ...finding, facts: { ...finding.facts, immunoglobulin: name } }))
}

export const pdSerum: CourseRule = {
  id: 'pd-serum',
  asks: 'Has serum M-protein risen from the lowest value by at least 25 % and 5 g/L, or from 50 g/L or more by at least 10 g/L? Where electrophoresis did not measure it at baseline: has the quantitative immunoglobulin of an IgA, IgD or beta-region protein?',
  source: `${SOURCES.imwg2016}; ${SOURCES.dispenzieri2009}`,
  check: (course) => (runsAsActive(course) ? [...findingsOfJudged([judgedBy(serumRise(course))]), ...byImmunoglobulin(course)] : []),
  judged: (course) => {
    if (!runsAsActive(course)) return []
    const immunoglobulin = immunoglobulinRise(course)
    const serum = judgedBy(serumRise(course))
    return immunoglobulin === null ? [serum] : [serum, { ...judgedBy(immunoglobulin), immunoglobulin: nameOf(course) }]
  },
}
