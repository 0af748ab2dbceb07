import { packCourse } from '../../../lib/charts/inBrowser.ts'
import type { ChartPlan, CoursePlan } from '../../../lib/charts/index.ts'
import { CourseChart } from '../course/CourseChart.tsx'
import { TrendTable } from './TrendTable.tsx'
import './chart.css'

/** What each chart says, in words, with the trend of its marker. A chart without a value says so in the course. */
function InWords({ charts }: { readonly charts: readonly ChartPlan[] }) {
  const told = charts.filter(({ table }) => table.rows.length > 0)
  if (told.length === 0) return null
  return (
    <section aria-labelledby="course-in-words">
      <h3 id="course-in-words">In words</h3>
      {told.map(({ id, title, sentence, trends }) => (
        <div className="chart" key={id}>
          <p className="chart-says">{sentence}</p>
          {trends !== undefined && <TrendTable title={title} trends={trends} />}
        </div>
      ))}
    </section>
  )
}

/** The course of one patient in pictures and in words. Stands under a heading of level 2. */
export function PatientCharts({ charts, course }: { readonly charts: readonly ChartPlan[]; readonly course: CoursePlan }) {
  return (
    <div className="charts">
      <CourseChart packed={packCourse(course)} />
      <InWords charts={charts} />
    </div>
  )
}
