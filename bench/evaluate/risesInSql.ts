/**
 * The lowest-and-rise rule of serum M-protein as one question, for SQLite and DuckDB alike: who, in the window that opens with the current line, lies at least 25 %
 * and 5 g/L above the lowest value before the last sample, or 10 g/L above one of 50 g/L or more (clinical.md 3.2). Values are whole hundredths of a g/L, which
 * is exact for every value of the bench. Asked of `serum (patient_id, day, value)` and `line (patient_id, began)`.
 */
const RISES = `opening AS (
    SELECT patient_id, coalesce(max(CASE WHEN after BETWEEN -60 AND 0 THEN day END), min(CASE WHEN after BETWEEN 1 AND 7 THEN day END)) AS opened
    FROM placed GROUP BY patient_id),
  followed AS (
    SELECT placed.patient_id, value,
      min(value) OVER (PARTITION BY placed.patient_id ORDER BY day ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS lowest,
      row_number() OVER (PARTITION BY placed.patient_id ORDER BY day DESC) AS from_last
    FROM placed JOIN opening ON opening.patient_id = placed.patient_id WHERE day >= opened)
  SELECT patient_id AS id FROM followed WHERE from_last = 1
    AND ((value - lowest >= 500 AND 4 * (value - lowest) >= lowest) OR (lowest >= 5000 AND value - lowest >= 1000))
  ORDER BY patient_id`

const OF_OUR_TABLES = (after: string): string => `WITH line AS (
    SELECT patient_id, max(on_day) AS began FROM course_event WHERE current = 1 AND event = 'line-start' GROUP BY patient_id),
  placed AS (
    SELECT result.patient_id, collected_on AS day, CAST(round(CAST(kept_low AS NUMERIC) * 100) AS INTEGER) AS value, ${after} AS after
    FROM result JOIN line ON line.patient_id = result.patient_id
    WHERE current = 1 AND status NOT IN ('cancelled', 'entered-in-error') AND analyte = 'serum-m-protein' AND kind = 'number'),
  ${RISES}`

/** Asked of the tables of Lowmark itself, in a file and on a server. */
export const RISES_IN_SQLITE = OF_OUR_TABLES('julianday(collected_on) - julianday(began)')
export const RISES_IN_POSTGRESQL = OF_OUR_TABLES('CAST(collected_on AS date) - CAST(began AS date)')

/** Asked of the columns DuckDB was given (`inDuckDb`). */
export const RISES_IN_DUCKDB = `WITH placed AS (
    SELECT result.patient_id, day, value, date_diff('day', began, day) AS after
    FROM result JOIN line ON line.patient_id = result.patient_id WHERE analyte = 'serum-m-protein'),
  ${RISES}`
