import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { begin, onChange, STAGES_MS, underWay } from '../../app/_parts/underway/underWay.ts'
import { stopAsking, watchRequests } from '../../app/_parts/underway/watchRequests.ts'

const asked: string[] = []
let answers: (() => Promise<Response>)[] = []
const answer = () => Promise.resolve(new Response('page'))
const gone = () => Promise.reject(new TypeError('Failed to fetch'))
let unwatch = (): void => undefined

beforeEach(() => {
  vi.useFakeTimers()
  asked.length = 0
  const plain = (input: RequestInfo | URL): Promise<Response> => {
    asked.push(String(input))
    return (answers.shift() ?? answer)()
  }
  vi.stubGlobal('window', { fetch: plain })
  unwatch = watchRequests()
})
afterEach(() => {
  unwatch()
  vi.unstubAllGlobals()
  vi.useRealTimers()
})

const fetchPage = (at: string) => window.fetch(at, { headers: { rsc: '1' } })
const sendForm = (at: string) => window.fetch(at, { method: 'POST', headers: { 'next-action': 'f00' } })

describe('what is under way', () => {
  it('is shown within a tenth of a second, in words after one, and not at all where it is over before', () => {
    expect(STAGES_MS[0]).toBeLessThan(100)
    const seen: unknown[] = []
    const stop = onChange(() => seen.push(underWay()))
    const end = begin('loading')
    vi.advanceTimersByTime(50)
    end()
    expect(seen).toEqual([])
    const endLong = begin('loading')
    vi.advanceTimersByTime(60)
    expect(underWay()).toEqual({ kind: 'loading', stage: 0 })
    vi.advanceTimersByTime(940)
    expect(underWay()).toEqual({ kind: 'loading', stage: 1 })
    vi.advanceTimersByTime(9000)
    expect(underWay()).toEqual({ kind: 'loading', stage: 2 })
    endLong()
    expect(underWay()).toBeNull()
    stop()
  })

  it('of several things is what weighs most', () => {
    const ends = [begin('file'), begin('loading'), begin('sending')]
    vi.advanceTimersByTime(60)
    expect(underWay()?.kind).toBe('sending')
    ends[2]?.()
    expect(underWay()?.kind).toBe('loading')
    for (const end of ends) end()
    expect(underWay()).toBeNull()
  })
})

describe('requests that are watched', () => {
  it('a page is under way until its last byte; what nobody waits for is not', async () => {
    answers = [() => new Promise((resolve) => setTimeout(() => resolve(new Response('x')), 500))]
    const page = fetchPage('/list')
    await vi.advanceTimersByTimeAsync(100)
    expect(underWay()?.kind).toBe('loading')
    await vi.advanceTimersByTimeAsync(500)
    expect(await (await page).text()).toBe('x')
    await vi.advanceTimersByTimeAsync(10)
    expect(underWay()).toBeNull()
    answers = [() => new Promise(() => undefined)]
    void window.fetch('/session')
    await vi.advanceTimersByTimeAsync(2000)
    expect(underWay()).toBeNull()
  })

  it('a page is asked for again until the server answers', async () => {
    answers = [gone, gone, answer]
    const page = fetchPage('/list')
    await vi.advanceTimersByTimeAsync(1100)
    expect(underWay()).toMatchObject({ kind: 'gone', stage: 1 })
    await vi.advanceTimersByTimeAsync(6000)
    expect([(await page).status, asked]).toEqual([200, ['/list', '/list', '/list']])
    expect(underWay()).toBeNull()
  })

  it('a page nobody wants any more is not asked for again', async () => {
    answers = [gone]
    void fetchPage('/list')
    await vi.advanceTimersByTimeAsync(100)
    await fetchPage('/held')
    await vi.advanceTimersByTimeAsync(10_000)
    expect(asked).toEqual(['/list', '/held'])
    answers = [gone]
    void fetchPage('/log')
    await vi.advanceTimersByTimeAsync(100)
    stopAsking()
    await vi.advanceTimersByTimeAsync(10_000)
    expect(asked).toEqual(['/list', '/held', '/log'])
    expect(underWay()).toBeNull()
  })

  it('a form is never sent twice', async () => {
    answers = [gone]
    await expect(sendForm('/list')).rejects.toThrow('Failed to fetch')
    await vi.advanceTimersByTimeAsync(10_000)
    expect([asked, underWay()]).toEqual([['/list'], null])
  })
})
