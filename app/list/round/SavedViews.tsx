'use client'

import { useId } from 'react'
import type { ListQuery, SavedViewView } from '../../../lib/usecases/index.ts'
import { Said } from '../../_parts/Said.tsx'
import { Told } from '../../_parts/Told.tsx'
import { type FormAct, useKeptForm } from '../../_parts/useKeptForm.ts'
import { addressOf } from '../address.ts'

interface Acts {
  readonly keep: FormAct<{ readonly viewId: number; readonly version: number }>
  readonly remove: FormAct<null>
}

interface Props extends Acts {
  readonly views: readonly SavedViewView[]
  readonly query: ListQuery
}

const FIRST: ListQuery = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 50 }

const linkOf = ({ asks }: SavedViewView): string => addressOf({ ...FIRST, ...asks }, {})

function RemoveView({ view, remove }: { readonly view: SavedViewView; readonly remove: Acts['remove'] }) {
  const { outcome, send, busy } = useKeptForm(remove)
  return (
    <form action={send} aria-label={`Remove ${view.name}`}>
      <input type="hidden" name="viewId" value={view.viewId} />
      <input type="hidden" name="version" value={view.version} />
      <button className="button button-quiet" type="submit" disabled={busy}>
        Remove this view
      </button>
      {outcome?.ok === false && <Said outcome={outcome} />}
    </form>
  )
}

interface KeepProps extends Pick<Props, 'views' | 'query' | 'keep'> {
  /** The one that is shown; null for anything else. */
  readonly view: SavedViewView | null
}

function KeepView({ view, views, query, keep }: KeepProps) {
  const form = useKeptForm(keep)
  const id = useId()
  // A select takes another usual value only when it is made anew.
  const [shared, place] = [form.typed('shared', view?.shared === true ? 'yes' : 'no'), form.typed('place')]
  const { pseudonym: _, page: __, pageSize: ___, since: ____, ...asks } = query
  return (
    <form className="filters" action={form.send} aria-label={view === null ? 'Keep this view' : `Change ${view.name}`}>
      <input type="hidden" name="asks" value={JSON.stringify(asks)} />
      {view !== null && <input type="hidden" name="place" value={`${view.viewId}:${view.version}`} />}
      <div className="field">
        <label htmlFor={`${id}-name`}>Name (no patient's)</label>
        <input className="input" id={`${id}-name`} name="name" maxLength={60} autoComplete="off" defaultValue={form.typed('name', view?.name)} />
      </div>
      <div className="field">
        <label htmlFor={`${id}-shared`}>For</label>
        <select className="input" id={`${id}-shared`} name="shared" key={shared} defaultValue={shared}>
          <option value="no">me</option>
          <option value="yes">the whole clinic</option>
        </select>
      </div>
      {view === null && (
        <div className="field">
          <label htmlFor={`${id}-place`}>As</label>
          <select className="input" id={`${id}-place`} name="place" key={place} defaultValue={place}>
            <option value="">a new view</option>
            {views.map(({ viewId, version, name }) => (
              <option key={viewId} value={`${viewId}:${version}`}>
                in place of {name}
              </option>
            ))}
          </select>
        </div>
      )}
      <button className="button button-quiet" type="submit" disabled={form.busy}>
        {view === null ? 'Keep' : 'Keep the change'}
      </button>
      {form.outcome?.ok === false && <Said outcome={form.outcome} />}
      <Told outcome={form.outcome}>Kept.</Told>
    </form>
  )
}

/** Filters and order kept under a name, each one link; the one that is shown can be changed or removed, anything else kept as a new one. */
export function SavedViews({ views, query, keep, remove }: Props) {
  const here = addressOf(query, { page: 1, since: null, pseudonym: null })
  const shown = views.find((view) => linkOf(view) === here) ?? null
  const asksSomething = here !== '/list'
  if (views.length === 0 && !asksSomething) return null
  return (
    <div className="views no-print">
      {views.length > 0 && (
        <nav className="round-ways" aria-label="Saved views">
          <span className="soft">Views</span>
          <ul>
            {views.map((view) => (
              <li key={view.viewId}>
                <a href={linkOf(view)} aria-current={view === shown ? 'true' : undefined}>
                  <bdi>{view.name}</bdi>
                  {view.shared && <span className="small soft"> the clinic's</span>}
                </a>
              </li>
            ))}
          </ul>
        </nav>
      )}
      {asksSomething && (
        <details>
          <summary>{shown === null ? 'Keep this view under a name' : 'Rename, share or remove this view'}</summary>
          <KeepView key={shown === null ? here : `${shown.viewId} ${shown.version}`} view={shown} views={views} query={query} keep={keep} />
          {shown !== null && <RemoveView key={shown.viewId} view={shown} remove={remove} />}
        </details>
      )}
    </div>
  )
}
