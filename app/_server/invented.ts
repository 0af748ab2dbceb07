import 'server-only'
import { cache } from 'react'
import { isDemonstration } from '../../lib/usecases/index.ts'
import { store } from './store.ts'

/** Does this database hold the invented cohort? Then every page says so. */
export const isInvented = cache(async (): Promise<boolean> => isDemonstration(await store()))
