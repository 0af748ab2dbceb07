/** The charts of the follow-up audit. Rendered on the server; nothing of them runs in a browser. Each stands under a heading of level 2. */
export { LatenessChart } from './LatenessChart.tsx'
export { OnTimeChart } from './OnTimeChart.tsx'
export { RunChart } from './RunChart.tsx'
export { WaitChart } from './WaitChart.tsx'
