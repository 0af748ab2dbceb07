/** What is made for paper: the list, and a patient's summary for a letter. */
export { PaperList } from './PaperList.tsx'
export { PaperSummary } from './PaperSummary.tsx'
export { TakeAway } from './TakeAway.tsx'
