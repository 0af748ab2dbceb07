import { decimalText } from '../../units/index.ts'
import { DEL17P_SHARE } from '../cytogenetics.ts'
import { CREATININE_MG_DL, HIGH_RISK_B2M, TRANSLOCATIONS } from '../highRisk2025.ts'
import { publishedIn } from '../marked.ts'
import type { ModelPage } from './modelPage.ts'
import { STAGING_DAYS } from './staging.ts'

const SOURCE = 'Avet-Loiseau 2025, J Clin Oncol 43:2739'

export const HIGH_RISK_PAGE: ModelPage = {
  title: 'High risk 2025',
  asks: 'Is active myeloma high risk: at least one of four genetic or blood findings?',
  runsIn: 'Active disease.',
  source: SOURCE,
  tables: [
    {
      caption: 'At least one of',
      head: ['Finding', 'Counts when'],
      rows: [
        ['del(17p) or TP53', `del(17p) in more than ${decimalText(DEL17P_SHARE)} % of cells, or a TP53 mutation`],
        ['Translocation', `any of ${TRANSLOCATIONS.join(', ')}, together with 1q gain or del(1p32)`],
        ['del(1p32)', 'biallelic, or monoallelic together with 1q gain'],
        ['Beta-2 microglobulin', `at or above ${decimalText(HIGH_RISK_B2M)} mg/L with creatinine below ${decimalText(CREATININE_MG_DL)} mg/dL`],
      ],
    },
  ],
  numbers: [publishedIn(SOURCE, 'Findings and their limits.'), STAGING_DAYS],
  how: [
    'One finding is enough, whatever else is missing. "Not high risk" is said only when nothing is missing.',
    'What was once found in the clone stays, whatever the day. A del(1p32) not called biallelic counts as monoallelic.',
  ],
  cannotSee: [
    'Genetics nobody wrote down: an empty field does not tell "none found" from "not examined".',
    'A del(17p) without its share of cells.',
    'What the model does not ask: extramedullary disease, circulating plasma cells, how the disease answers treatment.',
  ],
  elseCauses: ['cells that were not sorted before the test, which lowers the share found', 'another laboratory’s cut-off for a finding'],
  beside: 'ISS and R-ISS sort the same patients by other inputs. Where they disagree, all are shown.',
}
