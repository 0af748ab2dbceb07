import { z } from 'zod'
import { type CourseEvent, INTENTS, MODALITIES, PHASES } from '../../results/index.ts'
import { type Day, parseDay } from '../../time/index.ts'
import { type Decimal, decimalText, parseDecimal } from '../../units/index.ts'

const on = z.string().transform((text, context): Day => {
  const read = parseDay(text)
  if (read !== null) return read
  context.addIssue({ code: 'custom', message: 'not a day' })
  return z.NEVER
})

const percent = z
  .string()
  .nullable()
  .transform((text, context): Decimal | null => {
    const read = text === null ? null : parseDecimal(text)
    if (text === null || read !== null) return read
    context.addIssue({ code: 'custom', message: 'not a decimal' })
    return z.NEVER
  })

const count = z.number().int().nonnegative().nullable()
const phase = z.enum(PHASES)
const regimen = z.array(z.string())

const EVENT = z.discriminatedUnion('event', [
  z.strictObject({
    event: z.literal('diagnosis'),
    on,
    phase,
    heavyChain: z.enum(['G', 'A', 'M', 'D', 'E', 'none']).nullable(),
    lightChain: z.enum(['kappa', 'lambda']).nullable(),
  }),
  z.strictObject({ event: z.literal('phase'), on, phase }),
  z.strictObject({ event: z.literal('line-start'), on, line: z.number().int(), regimen, intent: z.enum(INTENTS).nullable() }),
  z.strictObject({ event: z.literal('line-end'), on, line: z.number().int() }),
  z.strictObject({
    event: z.literal('imaging'),
    on,
    modality: z.enum(MODALITIES),
    lyticLesions: count,
    focalLesions5mm: count,
    newLesions: count,
    growthPercent: percent,
  }),
  z.strictObject({
    event: z.literal('marrow'),
    on,
    plasmaCellsPercent: percent,
    abnormalities: z.array(z.string()),
    mrd: z.enum(['negative', 'positive']).nullable(),
  }),
  z.strictObject({ event: z.literal('bone-agent'), on, regimen }),
  z.strictObject({ event: z.literal('left'), on, reason: z.enum(['transferred', 'discharged', 'died']) }),
])

/** A course event as the JSON text the database keeps; decimals as canonical text. */
export function courseEventText(event: CourseEvent): string {
  if (event.event === 'imaging')
    return JSON.stringify({ ...event, growthPercent: event.growthPercent === null ? null : decimalText(event.growthPercent) })
  if (event.event === 'marrow') {
    return JSON.stringify({ ...event, plasmaCellsPercent: event.plasmaCellsPercent === null ? null : decimalText(event.plasmaCellsPercent) })
  }
  return JSON.stringify(event)
}

/** The course event a stored text holds. Throws ZodError where another program changed it into what no event can be. */
export function courseEventOf(text: string): CourseEvent {
  return EVENT.parse(JSON.parse(text))
}
