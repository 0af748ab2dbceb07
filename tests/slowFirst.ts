import { BaseSequencer, type TestSpecification } from 'vitest/node'

/** The files that take longest: begun last, one of them would go on alone for as long as everything else took together. */
const SLOW = ['tests/pages/pages.test.ts', 'tests/pages/wholePages.test.ts', 'tests/pages/sessions.test.ts', 'tests/canaries/canaries.test.ts']

const placeOf = ({ moduleId }: TestSpecification): number => {
  const at = SLOW.findIndex((file) => moduleId.endsWith(`/${file}`))
  return at === -1 ? SLOW.length : at
}

/** Slow files first; the others in vitest's own order. */
export class SlowFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return (await super.sort(files)).toSorted((a, b) => placeOf(a) - placeOf(b))
  }
}
