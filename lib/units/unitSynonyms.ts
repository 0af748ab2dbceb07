/**
 * Ways laboratories write a unit that are not its UCUM code, and the code each stands for. Common practice, no source.
 * A text that is not listed is read as UCUM or not at all: `MG/DL` is none of the two and waits for a person.
 */
const SYNONYMS = new Map<string, string>([
  ...['g', 'mg', 'ug', 'ng', 'mmol', 'umol', 'nmol'].flatMap((mass): [string, string][] => [
    [`${mass}/l`, `${mass}/L`],
    [`${mass}/dl`, `${mass}/dL`],
    [`${mass}/ml`, `${mass}/mL`],
  ]),
  ...['gm', 'gms', 'Gm'].flatMap((gram): [string, string][] => [
    [`${gram}/dL`, 'g/dL'],
    [`${gram}/dl`, 'g/dL'],
    [`${gram}/L`, 'g/L'],
    [`${gram}/l`, 'g/L'],
    [`${gram}%`, 'g/dL'],
  ]),
  ['g%', 'g/dL'],
  ['mg%', 'mg/dL'],
  ['mcg/mL', 'ug/mL'],
  ['mcg/ml', 'ug/mL'],
  ['mcg/dL', 'ug/dL'],
  ['mcg/L', 'ug/L'],
  ['mcmol/L', 'umol/L'],
  ['U/l', 'U/L'],
])

/** The ways to write "in 24 hours", beside the UCUM forms `/(24.h)` and `/d`. `mg/24.h` is UCUM for another dimension and not here. */
const IN_24_HOURS = [
  '/24h',
  '/24 h',
  '/24hr',
  '/24 hr',
  '/24hrs',
  '/24 hrs',
  '/24 hours',
  '/24H',
  '/24 H',
  '/(24 h)',
  '/(24h)',
  '/(24.h)',
  '/d',
  '/day',
]
const PER_DAY = new Map<string, string>(
  ['g', 'mg', 'ug', 'mcg'].flatMap((mass) => IN_24_HOURS.map((form) => [`${mass}${form}`, `${mass === 'mcg' ? 'ug' : mass}/(24.h)`] as const)),
)

const THOUSAND = [
  '10*3',
  '10^3',
  '10**3',
  '10E3',
  '10e3',
  'x10*3',
  'x10^3',
  'x10E3',
  'x10e3',
  'x10(3)',
  'X10E3',
  'X10*3',
  'X10^3',
  'x 10^3',
  'K',
  'k',
  'thou',
  'Thou',
]
const BILLION = [
  '10*9',
  '10^9',
  '10**9',
  '10E9',
  '10e9',
  'x10*9',
  'x10^9',
  'x10E9',
  'x10e9',
  'x10(9)',
  'X10E9',
  'X10*9',
  'X10^9',
  'x 10^9',
  'G',
  'Gpt',
]
const MICROLITRE = ['uL', 'ul', 'mcL', 'mm3', 'mm^3', 'cmm', 'cumm']

/** Only where cells are counted: elsewhere `K` is kelvin and `G` is gauss. */
const COUNTS = new Map<string, string>([
  ...THOUSAND.flatMap((power) => MICROLITRE.map((volume) => [`${power}/${volume}`, '10*3/uL'] as const)),
  ...BILLION.flatMap((power) => ['L', 'l'].map((volume) => [`${power}/${volume}`, '10*9/L'] as const)),
  ...['', 'cells', 'cell', '1'].flatMap((what) => MICROLITRE.map((volume) => [`${what}/${volume}`, '/uL'] as const)),
])

/** Only where the activity of an enzyme is meant, for which the international unit of 1964 is the UCUM unit `U`. */
const ENZYMES = new Map<string, string>(['IU/L', 'IU/l', 'iU/L', '[IU]/L', '[iU]/L', 'mU/mL', 'mIU/mL'].map((form) => [form, 'U/L']))

/** Immunoglobulin E is counted in international units of a standard preparation, which have no dimension to be converted by. */
const STANDARD_PREPARATION = new Map<string, string>([
  ['IU/mL', '[IU]/mL'],
  ['IU/ml', '[IU]/mL'],
  ['[iU]/mL', '[IU]/mL'],
  ['IU/L', '[IU]/L'],
  ['[iU]/L', '[IU]/L'],
  ['kIU/L', 'k[IU]/L'],
  ['k[iU]/L', 'k[IU]/L'],
])

const OF_ONE_UNIT = new Map<string, ReadonlyMap<string, string>>([
  ['10*9/L', COUNTS],
  ['U/L', ENZYMES],
  ['[IU]/mL', STANDARD_PREPARATION],
  [
    '1',
    new Map([
      ['', '1'],
      ['ratio', '1'],
      ['{ratio}', '1'],
    ]),
  ],
  ['%', new Map([['percent', '%']])],
])

const LONGEST = 100

/** The UCUM code `text` stands for where the unit kept is `keptUnit`; `text` itself where it is listed nowhere. The micro sign is read as `u`. */
export function ucumCodeOf(text: string, keptUnit: string): string {
  if (text.length > LONGEST) return text
  const plain = text.replace(/^[ \t\r\n]+|[ \t\r\n]+$/g, '').replace(/[\u00b5\u03bc]/g, 'u')
  return OF_ONE_UNIT.get(keptUnit)?.get(plain) ?? PER_DAY.get(plain) ?? SYNONYMS.get(plain) ?? plain
}
