export { DraftDesk } from './DraftDesk.tsx'
export { Paper } from './Paper.tsx'
export { ReleasedSheets } from './ReleasedSheets.tsx'
export { SheetDesk } from './SheetDesk.tsx'
