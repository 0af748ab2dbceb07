import type { SourceView } from '../../lib/usecases/index.ts'
import { instantText } from '../_parts/words.ts'
import { ProfileDifferences } from './ProfileDifferences.tsx'

/** Every version of a profile, latest first: who, when, why, and what it changed. */
export function ProfileVersions({ versions }: { readonly versions: SourceView['versions'] }) {
  if (versions.length === 0) return <p className="soft">None yet.</p>
  return (
    <ol className="held">
      {versions.map(({ version, madeBy, madeAt, reason, differences }) => (
        <li className="held-row" key={version}>
          <h3>Version {version}</h3>
          <p>
            <bdi>{reason}</bdi>
          </p>
          <p className="small soft">
            Saved by <bdi>{madeBy}</bdi>, {instantText(madeAt)}
          </p>
          <ProfileDifferences differences={differences} of={`What version ${version} changed`} />
        </li>
      ))}
    </ol>
  )
}
