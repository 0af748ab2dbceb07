/** Calendar days and moments. No clock and no zone in here: today is always an argument. */
export { ageAt, type BirthDate, earliestBirthDay, parseBirthDate } from './birth.ts'
export {
  addDays,
  addMonths,
  compareDays,
  type Day,
  day,
  daysBetween,
  earlierDay,
  laterDay,
  parseDay,
} from './day.ts'
export { type Moment, parseMoment } from './moment.ts'
