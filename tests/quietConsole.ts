import { afterEach, beforeEach, expect, vi } from 'vitest'

// A warning nobody reads is a fault nobody mends: any console warning or error fails the test that caused it.
beforeEach(() => {
  vi.spyOn(console, 'warn')
  vi.spyOn(console, 'error')
})

afterEach(() => {
  expect(vi.mocked(console.warn).mock.calls, 'console.warn').toEqual([])
  expect(vi.mocked(console.error).mock.calls, 'console.error').toEqual([])
  vi.restoreAllMocks()
})
