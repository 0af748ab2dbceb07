/** Small parts that stand inside other parts, in the browser too. PatientCharts has its own door, so that no chart library reaches the browser with a strip. */
export { Scroll } from './Scroll.tsx'
export { Strip, stripSays } from './Strip.tsx'
