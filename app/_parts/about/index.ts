/** Parts of the pages of rules and models. Rendered on the server. */
import './about.css'

export { Blind } from './Blind.tsx'
export { HowFarToTrust } from './HowFarToTrust.tsx'
export { ModelTables } from './ModelTables.tsx'
export { NumberList } from './NumberList.tsx'
export { Sentences } from './Sentences.tsx'
export { WayBack } from './WayBack.tsx'
