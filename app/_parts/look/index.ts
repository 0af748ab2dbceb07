/** Parts of the physician's look at one patient. Rendered on the server. */
export { StandsSentence } from './StandsSentence.tsx'
export { WhatWouldChange } from './WhatWouldChange.tsx'
