/** Published risk and response models over a Course. Knows no plan and no rule. */
export { type ResponseAssessment, type ResponseCategory, RESPONSES, type RiskAssessment } from './model.ts'
