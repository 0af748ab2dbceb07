'use client'

import { useMemo } from 'react'
import type { Listed } from './listed.ts'
import { type PackedRows, unpackedRows } from './packed.ts'

/** The rows a page sent; the same ones until it sends others. */
export const useRows = (packed: PackedRows): readonly Listed[] => useMemo(() => unpackedRows(packed), [packed])
