import { type Clinic, signedInAs } from './clinic.ts'
import { daysAgo } from './ownPatient.ts'
import { sendIntake } from './sendIntake.ts'

type Row = readonly [
  ago: number,
  code: string,
  value: string,
  unit: string,
  laboratory?: string,
  method?: string,
  status?: string,
  low?: string,
  high?: string,
]

const [NORTH, SOUTH] = ['North laboratory', 'South laboratory']
const SERUM = '33358-3'

const values = (code: string, unit: string, of: Readonly<Record<number, string>>, low = '', high = ''): Row[] =>
  Object.entries(of).map(([ago, value]) => [Number(ago), code, value, unit, NORTH, '', '', low, high] as const)

/** Two lines, a response to nothing measurable, a return; limits, two laboratories, two methods. */
const RESULTS: readonly Row[] = [
  ...values(SERUM, 'g/L', { 1400: '42', 1330: '31', 1260: '18', 1190: '9', 1120: '4', 1030: '<1', 940: 'not detected', 850: '<1' }),
  ...values(SERUM, 'g/L', { 760: '6', 690: '14', 640: '19.5', 560: '11', 480: '5.6', 400: '5.3', 330: '5.3', 150: '6.9', 90: '8.4', 31: '11.1' }),
  [220, SERUM, '5.9', 'g/L', SOUTH, 'capillary'],
  ...values('36916-5', 'mg/L', {
    1400: '920',
    1260: '210',
    1120: '24',
    940: '14',
    760: '96',
    640: '310',
    480: '41',
    330: '30',
    150: '62',
    90: '88',
    31: '141',
  }),
  ...values('33944-0', 'mg/L', { 1400: '3', 1260: '5', 1120: '9', 940: '8', 760: '7', 640: '<4', 480: '6', 330: '8', 150: '6', 90: '5', 31: '4' }),
  ...values(
    '718-7',
    'g/L',
    { 1400: '92', 1260: '104', 1120: '121', 940: '131', 760: '124', 640: '108', 480: '119', 330: '128', 150: '121', 93: '112', 31: '104' },
    '120',
  ),
  ...values('2160-0', 'umol/L', { 1400: '141', 1120: '92', 940: '88', 640: '104', 480: '91', 330: '90', 150: '92', 90: '97', 31: '99' }, '', '104'),
  ...values(
    '17861-6',
    'mmol/L',
    { 1400: '2.81', 1120: '2.31', 940: '2.28', 640: '2.4', 480: '2.3', 330: '2.31', 150: '2.33', 90: '2.36', 31: '2.41' },
    '',
    '2.55',
  ),
  ...values('777-3', '10*9/L', { 31: '160' }),
  ...values('751-8', '10*9/L', { 31: '2.9' }),
]

const COURSE = (id: string): readonly string[] => [
  'patient_id,on,event,phase,heavy_chain,light_chain,line,regimen,intent,modality,new_lesions,plasma_cells_percent,mrd',
  `${id},${daysAgo(1500)},diagnosis,smouldering,G,kappa,,,,,,,`,
  `${id},${daysAgo(1405)},phase,active,,,,,,,,,`,
  `${id},${daysAgo(1403)},marrow,,,,,,,,,62,`,
  `${id},${daysAgo(1390)},line-start,,,,1,bortezomib+lenalidomide+dexamethasone,induction,,,,`,
  `${id},${daysAgo(900)},line-end,,,,1,,,,,,`,
  `${id},${daysAgo(935)},marrow,,,,,,,,,2,negative`,
  `${id},${daysAgo(655)},imaging,,,,,,,pet-ct,2,,`,
  `${id},${daysAgo(630)},line-start,,,,2,daratumumab+pomalidomide+dexamethasone,relapse,,,,`,
  `${id},${daysAgo(320)},marrow,,,,,,,,,4,`,
]

const HEAD = 'patient_id,collected_at,code,value,unit,laboratory,method,status,reference_low,reference_high'
const rowsOf = (id: string, rows: readonly Row[]): string[] =>
  rows.map(([ago, code, value, unit, laboratory = NORTH, method = '', status = '', low = '', high = '']) =>
    [id, daysAgo(ago), code, value, unit, laboratory, method, status, low, high].join(','),
  )

async function send(clinic: Clinic, files: readonly (readonly string[])[]): Promise<void> {
  const { context } = await signedInAs(clinic, 'navigator')
  for (const rows of files) {
    const headers = { origin: clinic.url, 'x-lowmark-dry-run': 'no' }
    const report = await (await sendIntake(clinic.url, await context.cookies(), `${rows.join('\n')}\n`, headers)).text()
    if (!report.includes('"held":0,') || !report.includes('"refused":0,')) throw new Error(`not filed as it should be: ${report.slice(-400)}`)
  }
  await context.close()
}

/** An invented patient with a long course: everything the picture has a sign for, but for what a person excludes. */
export async function admitCourse(clinic: Clinic, id: string): Promise<void> {
  await send(clinic, [
    ['patient_id,birth_date,sex,family_name', `${id},1956-04-02,female,Invented ${id}`],
    COURSE(id),
    [HEAD, ...rowsOf(id, RESULTS)],
    // The laboratory had said 8.4; it now says 7.4.
    [HEAD, ...rowsOf(id, [[90, SERUM, '7.4', 'g/L', NORTH, '', 'corrected']])],
  ])
}

/** 300 samples of each of 8 markers, one a week: the longest course anybody is expected to have. */
export async function admitLong(clinic: Clinic, id: string): Promise<void> {
  const wave = (of: number, most: number, places: number) =>
    Object.fromEntries(Array.from({ length: 300 }, (_, at) => [at * 7 + 3, (most * (0.4 + 0.3 * Math.sin(at / of))).toFixed(places)]))
  await send(clinic, [
    ['patient_id,birth_date,sex,family_name', `${id},1950-04-02,male,Invented ${id}`],
    [
      'patient_id,on,event,phase,heavy_chain,light_chain,line,regimen',
      `${id},${daysAgo(2100)},diagnosis,active,A,kappa,,`,
      `${id},${daysAgo(2090)},line-start,,,,1,bortezomib`,
    ],
    [
      HEAD,
      ...rowsOf(id, [
        ...values(SERUM, 'g/L', wave(11, 40, 1)),
        ...values('2458-8', 'g/L', wave(13, 30, 1)),
        ...values('36916-5', 'mg/L', wave(17, 900, 0)),
        ...values('33944-0', 'mg/L', wave(19, 20, 1)),
        ...values('42482-0', 'mg/(24.h)', wave(23, 800, 0)),
        ...values('718-7', 'g/L', wave(29, 190, 0)),
        ...values('2160-0', 'umol/L', wave(31, 190, 0)),
        ...values('17861-6', 'mmol/L', wave(37, 5, 2)),
      ]),
    ],
  ])
}
