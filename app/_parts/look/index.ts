/** Parts of the physician's look at one patient. Rendered on the server. */
export { CompareDays } from './CompareDays.tsx'
export { compareWish } from './compareWish.ts'
export { HowComputed, PLACE_OF_NUMBERS } from './HowComputed.tsx'
export { ResponseParts } from './ResponseParts.tsx'
export { RiskParts } from './RiskParts.tsx'
export { StandsSentence } from './StandsSentence.tsx'
export { Sums } from './Sum.tsx'
export { WhatWouldChange } from './WhatWouldChange.tsx'
