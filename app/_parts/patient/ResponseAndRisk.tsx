import type { LookView, PatientView } from '../../../lib/usecases/index.ts'
import { ModelLink } from '../about/ModelLink.tsx'
import { ResponseParts, RiskParts, Sums } from '../look/index.ts'
import { counted } from '../words.ts'
import { modelName } from './names.ts'

function Missing({ missing }: { readonly missing: readonly string[] }) {
  return missing.length === 0 ? null : <> Missing: {missing.join('; ')}.</>
}

function riskSays({ factors, points, group, percent, horizon }: PatientView['risk'][number]): string {
  const by = factors !== null ? counted(factors, 'factor') : points !== null ? counted(points, 'point') : null
  const risk = percent === null ? null : `${percent} % at ${horizon ?? 'a time not named'}`
  return [by, group, risk].filter((part) => part !== null).join(', ') || 'cannot be told'
}

/** Response of the current line and the published risk models, each with what is missing for it. */
export function ResponseAndRisk({ response, risk, look = null }: Pick<PatientView, 'response' | 'risk'> & { readonly look?: LookView | null }) {
  const { category, state, provisional, missing } = response
  return (
    <dl className="parts">
      <div>
        <dt>
          <ModelLink model="response">Response (IMWG 2016)</ModelLink>
        </dt>
        <dd>
          {category === null ? 'cannot be told' : [category, state, provisional ? 'provisional' : null].filter((part) => part !== null).join(', ')}.
          <Missing missing={missing} />
          {look !== null && <ResponseParts response={look.response} />}
          {look !== null && <Sums sums={look.sums} of={['fall']} />}
        </dd>
      </div>
      {risk.map((model) => (
        <div key={model.model}>
          <dt>
            <ModelLink model={model.model}>Risk, {modelName(model.model)}</ModelLink>
          </dt>
          <dd>
            {riskSays(model)}.<Missing missing={model.missing} />
            <RiskParts name={modelName(model.model)} parts={look?.risk.find((one) => one.model === model.model)?.parts ?? []} />
            {look !== null && <Sums sums={look.sums.filter(({ id }) => id === `risk-${model.model}`)} of={['risk']} />}
          </dd>
        </div>
      ))}
      {look !== null && look.disagreement !== null && (
        <div>
          <dt>Where models disagree</dt>
          <dd>{look.disagreement}</dd>
        </div>
      )}
    </dl>
  )
}
