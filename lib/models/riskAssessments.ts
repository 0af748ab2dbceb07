import type { Course } from '../course/index.ts'
import { highRisk2025 } from './highRisk2025.ts'
import { iss } from './iss.ts'
import { mgusModel } from './mgusModel.ts'
import type { RiskAssessment } from './model.ts'
import { rIss } from './rIss.ts'
import { smoulderingPoints } from './smoulderingPoints.ts'
import { twentyTwoTwenty, twentyTwoTwentyCytogenetics } from './twentyTwoTwenty.ts'

/**
 * The risk models of the patient's phase: one for MGUS; 20/2/20, its form with genetics where those are recorded, and the points for smouldering
 * myeloma; ISS, R-ISS and high risk 2025 for active myeloma. None in other phases. In MGUS and smouldering myeloma each input is the latest
 * known value; stages take the values of the start of the line or of the diagnosis.
 */
export function riskAssessments(course: Course): readonly RiskAssessment[] {
  switch (course.phase?.phase) {
    case 'mgus':
      return [mgusModel(course)]
    case 'smouldering':
      return [twentyTwoTwenty(course), twentyTwoTwentyCytogenetics(course), smoulderingPoints(course)].filter((model) => model !== null)
    case 'active':
      return [iss(course), rIss(course), highRisk2025(course)]
    default:
      return []
  }
}
