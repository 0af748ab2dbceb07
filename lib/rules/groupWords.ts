import type { TestGroup } from '../plan/index.ts'

/** Test groups as a person reads them, inside a sentence. */
export const GROUP_WORDS: Readonly<Record<TestGroup, string>> = {
  'serum-m-protein': 'serum M-protein',
  'free-light-chains': 'free light chains',
  'blood-count': 'blood count',
  chemistry: 'chemistry (creatinine and calcium)',
  'urine-24h': '24-hour urine M-protein',
  immunoglobulins: 'immunoglobulins',
  imaging: 'imaging',
}
