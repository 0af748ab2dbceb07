'use client'

import type { OwnAccountView } from '../../lib/usecases/index.ts'
import { Disclosed } from '../_parts/Disclosed.tsx'
import { Told } from '../_parts/Told.tsx'
import { useKeptForm } from '../_parts/useKeptForm.ts'
import { counted, instantText } from '../_parts/words.ts'
import { renewRecoveryCodes, setUpFactor, turnFactorOff } from '../_server/accountActs.ts'
import { ProofFields } from './ProofFields.tsx'
import { RecoveryCodes } from './RecoveryCodes.tsx'
import { SetUp } from './SetUp.tsx'

const CODE_SAYS = 'Code of the app, or a recovery code'

/** The second factor: set up, its recovery codes, turned off. Codes just made stay in sight until the page is left. */
export function SecondFactor({ factor }: { readonly factor: OwnAccountView['secondFactor'] }) {
  const setting = useKeptForm(setUpFactor)
  const renewing = useKeptForm(renewRecoveryCodes)
  const turning = useKeptForm(turnFactorOff)
  // The latest of this visit, and only of the second factor there is now.
  const made = [setting.outcome, renewing.outcome]
    .flatMap((outcome) => (outcome?.ok && outcome.value.madeAt >= (factor.since ?? '') ? [outcome] : []))
    .toSorted((a, b) => a.value.madeAt.localeCompare(b.value.madeAt))
    .at(-1)
  return (
    <section aria-labelledby="second-factor">
      <h2 id="second-factor">Second factor</h2>
      <p className="no-print">
        A code of six digits from an authenticator app on your phone, asked for at sign-in beside the password. Each code counts once.{' '}
        {factor.isRequired && 'This clinic requires it.'}
      </p>
      {factor.isOn && <State factor={factor} />}
      {factor.isOn && made !== undefined && <RecoveryCodes key={made.value.codes[0]} codes={made.value.codes} outcome={made} />}
      {factor.isOn ? (
        <>
          <Disclosed form={renewing} says="Make new recovery codes" to="your account" button="Make new codes" about={{}}>
            <p className="soft">The earlier ones no longer count.</p>
            <ProofFields codeSays={CODE_SAYS} />
          </Disclosed>
          <Disclosed form={turning} says="Turn the second factor off" to="your account" button="Turn it off" about={{}}>
            <p className="soft">To move to another device, turn it off and set it up again there. Your other sessions end.</p>
            <ProofFields codeSays={CODE_SAYS} />
          </Disclosed>
        </>
      ) : (
        <>
          <Told outcome={turning.outcome}>Your second factor is turned off.</Told>
          <SetUp setting={setting} />
        </>
      )}
    </section>
  )
}

function State({ factor }: { readonly factor: OwnAccountView['secondFactor'] }) {
  return (
    <>
      <p className="no-print">
        Set up{factor.since !== null && ` on ${instantText(factor.since)}`}. {counted(factor.codesLeft, 'recovery code')} left.
      </p>
      {!factor.isReadable && (
        <p className="notice notice-alert">
          A secret of this server was changed, so no code of your app counts any more. Recovery codes do: turn the second factor off with one, and set
          it up again.
        </p>
      )}
      {factor.codesLeft < 3 && <p className="notice notice-alert no-print">Few recovery codes are left. Make new ones while you can.</p>}
    </>
  )
}
