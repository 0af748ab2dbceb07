/** How `projected-crossing` could be set: samples at least, of so many months, confidence in per cent; and, no setting yet, from which sample on. */
export interface Setting {
  readonly from: 'baseline' | 'lowest'
  readonly samples: number
  readonly months: number
  readonly percent: number
}

const PERCENTS = [80, 90, 95, 97.5]

const grid = (from: Setting['from'], months: number, samples: readonly number[], percents: readonly number[]): readonly Setting[] =>
  samples.flatMap((least) => percents.map((percent) => ({ from, months, samples: least, percent })))

/** Settings that are tried; of those with one origin and as many months the loosest comes first. */
export const SETTINGS: readonly Setting[] = [
  ...grid('baseline', 12, [3, 4, 5, 6], PERCENTS),
  ...[4, 6, 9].flatMap((months) => grid('baseline', months, [3], PERCENTS)),
  ...grid('lowest', 12, [3, 4, 5, 6], PERCENTS),
]

/** Where the settings hold what Lowmark comes with. */
export const USUAL_SETTING = SETTINGS.findIndex(
  ({ from, months, samples, percent }) => from === 'baseline' && months === 12 && samples === 3 && percent === 90,
)
