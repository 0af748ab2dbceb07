/** 45 CFR 164.316(b)(2)(i): documentation is kept for six years. */
export const LEAST_YEARS = 6

/** How many years the log is kept in the database: six, or more where LOWMARK_LOG_KEEP_YEARS says so. Throws a sentence where it says less. */
export function keepYears(): number {
  const text = process.env.LOWMARK_LOG_KEEP_YEARS ?? String(LEAST_YEARS)
  if (!/^\d{1,3}$/.test(text) || Number(text) < LEAST_YEARS)
    throw new Error(`LOWMARK_LOG_KEEP_YEARS takes a whole number of at least ${LEAST_YEARS} years, not "${text}".`)
  return Number(text)
}
