import type { PlanFormView } from '../../lib/usecases/index.ts'

type Choice = PlanFormView['choices'][number]

/** What a value is written like in its field: the number, and the unit where it has a choice of two. */
function written(value: Choice['value']): { readonly text: string; readonly unit: 'days' | 'months' } {
  if (typeof value !== 'object') return { text: String(value), unit: 'days' }
  return 'days' in value ? { text: String(value.days), unit: 'days' } : { text: String(value.months), unit: 'months' }
}

function textOf({ choice, value }: Choice): string {
  const { text, unit } = written(value)
  if (choice.kind === 'interval') return `${text} ${unit}`
  return choice.kind === 'number' ? `${text} ${choice.unit}` : (choice.words[text] ?? text)
}

/** One number of the plan beside its words: what it is now, what Lowmark comes with, and what is wrong with what was typed. */
export function Field({ choice, value, wrong }: Choice & { readonly wrong: string | null }) {
  const { id, kind, asks, usual, source } = choice
  const { text, unit } = written(value)
  const now = textOf({ choice, value })
  const comes = textOf({ choice, value: usual })
  const about = `about-${id}`
  const common = { id: `field-${id}`, name: id, 'aria-invalid': wrong !== null, 'aria-describedby': about, className: 'input' }
  return (
    <div className={`plan-field ${kind === 'word' ? 'plan-field-choice' : ''} ${wrong === null ? '' : 'plan-field-wrong'}`}>
      <label htmlFor={`field-${id}`}>{asks}</label>
      <span className="plan-inputs">
        {kind === 'word' ? (
          <select {...common} defaultValue={text}>
            {Object.entries(choice.words).map(([word, says]) => (
              <option key={word} value={word}>
                {says}
              </option>
            ))}
          </select>
        ) : (
          <input {...common} size={5} inputMode="numeric" autoComplete="off" defaultValue={text} />
        )}
        {kind === 'interval' && (
          <select className="input" name={`${id}.unit`} defaultValue={unit} aria-label={`unit of "${choice.about}: ${asks}"`}>
            <option>days</option>
            <option>months</option>
          </select>
        )}
        {kind === 'number' && <span>{choice.unit}</span>}
      </span>
      <span className="small soft" id={about}>
        {wrong !== null && <span className="plan-wrong">This {wrong}. </span>}
        now {now}
        {now === comes ? `, ${source}` : ` (this clinic); Lowmark comes with ${comes}, ${source}`}
      </span>
    </div>
  )
}
