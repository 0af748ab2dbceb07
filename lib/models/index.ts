/** Published risk and response models over a Course. Knows no plan and no rule. */
export { assessResponse, bestResponse } from './assessResponse.ts'
export { chosenInstead, fromMemory, type Mark, type MarkedNumber, markText, ours, practice, publishedIn } from './marked.ts'
export { MODEL_IDS, type ModelId, RESPONSES, type ResponseAssessment, type ResponseCategory, type RiskAssessment } from './model.ts'
export type { ModelPage, ModelTable } from './pages/modelPage.ts'
export { modelPage } from './pages/modelPages.ts'
export { riskAssessments } from './riskAssessments.ts'
export type { RiskFactorName } from './riskFactor.ts'
export { type FactorOn, type RiskOn, type RiskOverTime, riskOverTime } from './riskOverTime.ts'
