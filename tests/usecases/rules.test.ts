import { afterAll, beforeAll, expect, test } from 'vitest'
import { MODEL_IDS } from '../../lib/models/index.ts'
import { RULE_IDS } from '../../lib/rules/index.ts'
import type { Store } from '../../lib/store/index.ts'
import { readModel, readRule, readRules } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted, logged } from './accounts/persons.ts'

let store: Store
let dispose: () => Promise<void>
beforeAll(async () => {
  ;({ store, dispose } = await freshStore())
})
afterAll(() => dispose())

test('the list of all leads to every rule and every model, and each has its page', async () => {
  const call = callOf(store, 'quality')
  const { sections, models } = granted(await readRules(call))
  const listed = sections.flatMap(({ rules }) => rules.map(({ id }) => id))
  expect(listed).toEqual([...RULE_IDS])
  expect(models.map(({ id }) => id)).toEqual([...MODEL_IDS])
  for (const { title, rules } of sections)
    for (const rule of rules) expect(granted(await readRule(call, rule.id))).toMatchObject({ ...rule, section: title, cannotSee: expect.any(Array) })
  for (const { id, title } of models) expect(granted(await readModel(call, id))).toMatchObject({ id, title })
})

test('every number says how far it can be relied on', async () => {
  const rule = granted(await readRule(callOf(store, 'navigator'), 'mde-calcium'))
  expect(rule.numbers.map(({ mark }) => mark)).toEqual([
    'Published: IMWG 2014 (Rajkumar, Lancet Oncol 15:e538).',
    'Published: after Payne, BMJ 1973;4:643.',
    '(from memory)',
    '(ours)',
  ])
  expect(rule.runsIn).toBe('MGUS and smouldering myeloma.')
})

test.each(['no-such-rule', '', 'constructor', 'mde-calcium ', 'MDE-CALCIUM'])('no rule and no model is called %j', async (name) => {
  const call = callOf(store, 'physician')
  expect(await readRule(call, name)).toEqual({ ok: false, kind: 'not-found', reason: 'No rule has this name.' })
  expect(await readModel(call, name)).toEqual({ ok: false, kind: 'not-found', reason: 'No model has this name.' })
})

test('reading is no entry of the log', async () => {
  const before = logged(store).length
  granted(await readRule(callOf(store, 'administrator'), 'overdue'))
  granted(await readModel(callOf(store, 'administrator'), 'iss'))
  expect(logged(store).length).toBe(before)
})
