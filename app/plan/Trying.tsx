import type { Step } from './tryPlan.ts'

/** How far a trial is. Read out when it begins. */
export function Trying({ step, id }: { readonly step: Step | null; readonly id: string }) {
  return (
    <div role="status">
      {step !== null && (
        <p>
          <label htmlFor={id}>
            {step.says}
            {step.of > 1 && `: ${step.done} of ${step.of}`}
          </label>
          <progress className="progress" id={id} max={Math.max(step.of, 1)} value={step.done} />
        </p>
      )}
    </div>
  )
}
