import { decimal } from '../units/index.ts'

/** Where smouldering myeloma begins: serum M-protein in g/L, urine M-protein in mg/24 h, marrow plasma cells in %. IMWG 2014 (Rajkumar, Lancet Oncol 15:e538). */
export const SMOULDERING_FROM = { serum: decimal('30'), urine: decimal('500'), marrow: decimal('10') } as const
