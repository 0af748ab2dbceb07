import type { ModelId } from '../model.ts'
import { HIGH_RISK_PAGE } from './highRisk.ts'
import { MGUS_PAGE } from './mgus.ts'
import type { ModelPage } from './modelPage.ts'
import { RESPONSE_PAGE } from './response.ts'
import { POINTS_PAGE, TWENTY_CYTOGENETICS_PAGE, TWENTY_PAGE } from './smouldering.ts'
import { ISS_PAGE, R_ISS_PAGE } from './staging.ts'

/** A model without a page does not compile. */
const PAGES: Readonly<Record<ModelId, ModelPage>> = {
  mgus: MGUS_PAGE,
  '20-2-20': TWENTY_PAGE,
  '20-2-20-cytogenetics': TWENTY_CYTOGENETICS_PAGE,
  'smouldering-points': POINTS_PAGE,
  iss: ISS_PAGE,
  'r-iss': R_ISS_PAGE,
  'high-risk-2025': HIGH_RISK_PAGE,
  response: RESPONSE_PAGE,
}

/** What stands on the page of a model. */
export function modelPage(id: ModelId): ModelPage {
  return PAGES[id]
}
