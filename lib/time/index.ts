/** Calendar days and moments. No clock and no zone of the machine in here: today and a zone are always arguments. */
export { ageBand } from './ageBand.ts'
export { ageAt, agreedBirth, type BirthDate, earliestBirthDay, parseBirthDate } from './birth.ts'
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
export { offsetsAt, timeZoneNamed } from './localTime.ts'
export { type Moment, parseMoment } from './moment.ts'
