import type { Moment } from '../../time/index.ts'

const TIME = /^(\d{4}-\d{2}-\d{2}T\d{2}:\d{2})(:\d{2}(?:\.\d+)?)?(Z|[+-]\d{2}):?(\d{2})?$/

/** A moment as a FHIR dateTime: a day, or a time with seconds and an offset with a colon. */
export function dateTimeOf({ text, on }: Moment): string {
  const [, minute, seconds = ':00', zone = '', minutes] = TIME.exec(text) ?? []
  if (minute === undefined) return on
  return `${minute}${seconds}${zone}${zone === 'Z' ? '' : `:${minutes ?? '00'}`}`
}

/** The same as a FHIR instant, which is a time always; undefined for a day alone. */
export function instantOf(moment: Moment | null): string | undefined {
  return moment?.text.includes('T') ? dateTimeOf(moment) : undefined
}
