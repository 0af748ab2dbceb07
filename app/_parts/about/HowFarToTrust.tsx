/** What the marks behind the numbers mean, and the caution. */
export function HowFarToTrust() {
  return (
    <p className="notice">
      <b>Published</b>: a named source. <b>From memory</b>: written down from memory and checked by nobody yet. <b>Common practice</b>: what clinics
      usually do, without a source. <b>Ours</b>: a choice of this project. A clinic looks at the last three before it relies on them. Lowmark flags
      for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.
    </p>
  )
}
