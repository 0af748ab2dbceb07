/** Published risk and response models over a Course. Knows no plan and no rule. */
export { assessResponse, bestResponse } from './assessResponse.ts'
export { RESPONSES, type ResponseAssessment, type ResponseCategory, type RiskAssessment } from './model.ts'
export { riskAssessments } from './riskAssessments.ts'
