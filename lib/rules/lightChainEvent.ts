import { decimal } from '../units/index.ts'

/** The light-chain event: involved ratio, and involved free light chain in mg/L, both at or above. IMWG 2014 (Rajkumar, Lancet Oncol 15:e538). */
export const LIGHT_CHAIN_EVENT = { ratio: decimal('100'), involved: decimal('100') } as const
