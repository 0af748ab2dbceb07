import { dirname } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { may, ROLES, type Role } from '../../lib/access/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { CALL, TODAY } from '../store/samples.ts'
import { ACTION_FILES, ACTIONS, ROUTES } from './doors.ts'
import { filesUnder, textOf } from './tree.ts'

const DOORS = [...Object.entries(ROUTES), ...Object.entries(ACTIONS)].flatMap(([name, door]) => (door.needs === null ? [] : [{ name, ...door }]))
const EVERYBODY: readonly (Role | 'none')[] = [...ROLES, 'none']

/** The text of one action, up to the next one of its file. */
function actionText(name: string): string {
  const begins = `export async function ${name}(`
  const source = ACTION_FILES.map(textOf).find((text) => text.includes(begins)) ?? ''
  const from = source.indexOf(begins)
  const to = source.indexOf('\nexport ', from + 1)
  return source.slice(from, to === -1 ? undefined : to)
}

describe('routes and actions', () => {
  let fresh: Awaited<ReturnType<typeof freshStore>>
  beforeAll(async () => {
    fresh = await freshStore()
  })
  afterAll(() => fresh.dispose())

  it('are all in the table, each with a permission or open on purpose', () => {
    const found = filesUnder(['app'], ['page.tsx', 'route.ts', 'page.ts', 'route.tsx']).map(dirname)
    expect(found.toSorted()).toEqual(Object.keys(ROUTES).toSorted())
    const actions = filesUnder(['app'], ['.ts', '.tsx']).filter((path) => /^'use server'/m.test(textOf(path)))
    expect(actions).toEqual(ACTION_FILES)
    const exported = [
      ...ACTION_FILES.map(textOf)
        .join('\n')
        .matchAll(/^export async function (\w+)/gm),
    ].map(([, name]) => name ?? '')
    expect(exported.toSorted()).toEqual(Object.keys(ACTIONS).toSorted())
  })

  it('have no handler beside them: no proxy, no middleware, no other way in', () => {
    const names = filesUnder(['app'], ['proxy.ts', 'middleware.ts', 'instrumentation.ts', 'default.tsx', 'opengraph-image.tsx'])
    expect(names).toEqual([])
  })

  it.each(Object.entries(ROUTES))('%s asks through the door of app/_server', (folder, door) => {
    const [path = ''] = filesUnder(['app'], ['page.tsx', 'route.ts']).filter((file) => dirname(file) === folder)
    if (door.needs !== null) expect(textOf(path)).toContain(door.says)
    else expect(textOf(path)).not.toMatch(/_server\/pages/)
  })

  it.each(Object.entries(ACTIONS))('the action %s is wrapped', (name, door) => {
    const text = actionText(name)
    expect(text).toContain(door.needs === null ? 'openAction(' : `guardedAction('${door.needs}'`)
    if (door.needs !== null) expect(text).toContain(door.says)
  })

  describe.each(DOORS)('$name', ({ needs, behind }) => {
    it.each(EVERYBODY)(`is open to %s exactly where ${needs} is`, async (role) => {
      const actor = { ...CALL.actor, name: role, role }
      const before = fresh.store.reader.trailHead()?.sequence ?? 0
      const outcome = await behind({ store: fresh.store, actor, now: CALL.now, today: TODAY })
      const allowed = may(role === 'none' ? null : role, needs).allowed
      expect(outcome.ok || outcome.kind !== 'not-allowed').toBe(allowed)
      if (allowed) return
      const { rows } = fresh.store.reader.trailPage({ actor: null, offset: 0, limit: 1 })
      expect(rows[0]).toMatchObject({ sequence: before + 1, action: 'access-refused', outcome: 'failure', actor: role })
      expect(outcome).toMatchObject({
        reason: expect.stringMatching(role === 'none' ? /^Sign in first\.$/ : new RegExp(`^The role ${role} does not include`)),
      })
    })
  })

  it('are open to the roles that the table of access names', () => {
    const open = DOORS.map(({ name, needs }) => [name, ROLES.filter((role) => may(role, needs).allowed)])
    expect(Object.fromEntries(open)).toMatchObject({
      'app/list': ['navigator', 'physician'],
      'app/list/export': ['navigator', 'physician'],
      'app/patients/[address]': ['navigator', 'physician'],
      'app/held': ['navigator', 'physician', 'administrator'],
      'app/merges': ['navigator', 'physician'],
      confirmPatientMerge: ['navigator', 'physician'],
      endPatientMerge: ['navigator', 'physician'],
      'app/log': [...ROLES],
      'app/rules': [...ROLES],
      'app/rules/[ruleId]': [...ROLES],
      'app/models/[model]': [...ROLES],
      'app/sources': ['navigator', 'physician', 'administrator'],
      'app/sources/[source]': ['navigator', 'physician', 'administrator'],
      saveSourceProfile: ['physician', 'administrator'],
      'app/accounts': ['administrator'],
      'app/plan': [...ROLES],
      proposePlanChange: ['physician'],
      publishPlanVersion: ['administrator'],
      decideHeldRows: ['navigator', 'physician', 'administrator'],
      answerFinding: ['navigator', 'physician'],
      recordCause: ['physician'],
      withdrawCause: ['physician'],
      excludeValue: ['physician'],
      restoreValue: ['physician'],
    })
  })
})
