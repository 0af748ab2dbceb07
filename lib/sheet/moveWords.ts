/** What harmless things move a test, each with where that is said. For M-protein and light chains in stable people: Katzmann 2011, Clin Chem 57:1687. */
export const MOVES = {
  small: {
    says: 'It moves up and down a little from test to test, and that is normal.',
    source: 'Katzmann 2011, Clin Chem 57:1687; blood count and kidneys: common practice',
  },
  laboratory: { says: 'A new lab may give a number that is a bit more or a bit less.', source: 'common practice' },
  infection: { says: 'A cold or a fever can move it for some weeks.', source: 'common practice' },
  water: { says: 'If you drink too little, it can go up for a few days.', source: 'common practice' },
  kidneys: { says: 'It also goes up when the kidneys work less well.', source: 'Hutchison 2008, CJASN 3:1684' },
  collected: { says: 'If some of the urine of that day was lost, the number comes out too low.', source: 'common practice' },
  drugs: { says: 'Some drugs move it for days or weeks.', source: 'common practice' },
  clumps: { says: 'At times they stick together in the tube, and then the number comes out too low.', source: 'common practice' },
  meat: { says: 'A big meal of meat or a hard day of sport can move it up.', source: 'common practice' },
  armband: { says: 'A band that sat tight on the arm can move it up a bit.', source: 'common practice' },
  spot: { says: 'The number depends on the spot the sample was taken from.', source: 'common practice' },
} as const satisfies Readonly<Record<string, { readonly says: string; readonly source: string }>>

export type MoveWord = keyof typeof MOVES
