import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

const BUILD = '.next/server'
/** What is the same for everybody and says nothing of anybody: the last page when everything failed, and the picture of the browser tab. */
const SAME_FOR_ALL = ['/_global-error', '/icon.svg']

const built = <T>(file: string): T => JSON.parse(readFileSync(join('.next', file), 'utf8')) as T

/** Nothing of the build is a page that was made before anybody asked for it, and nothing stands between a request and the pages. */
export function builtOutput(): void {
  describe('the built pages', () => {
    it('hold no page made beforehand but what is the same for everybody', () => {
      const made = built<{ routes: object; dynamicRoutes: object }>('prerender-manifest.json')
      expect(Object.keys(made.routes).toSorted()).toEqual(SAME_FOR_ALL)
      expect(Object.keys(made.dynamicRoutes)).toEqual([])
      const files = readdirSync(join(BUILD, 'app'), { recursive: true, encoding: 'utf8' })
      expect(files.length).toBeGreaterThan(50)
      expect(files.filter((file) => /\.(html|rsc|body)$/.test(file) && !SAME_FOR_ALL.some((path) => `/${file}`.startsWith(path)))).toEqual([])
    })

    it('have no proxy before them', () => {
      const { middleware, functions } = built<{ middleware: object; functions: object }>('server/middleware-manifest.json')
      expect([Object.keys(middleware), Object.keys(functions)]).toEqual([[], []])
      expect(existsSync(join(BUILD, 'middleware.js')) || existsSync(join(BUILD, 'proxy.js'))).toBe(false)
    })

    it('bring no source of the server, no secret and no name of a setting to the browser', () => {
      const files = readdirSync('.next/static', { recursive: true, encoding: 'utf8' })
      expect(files.filter((file) => file.endsWith('.map'))).toEqual([])
      const scripts = files.filter((file) => file.endsWith('.js')).map((file) => readFileSync(join('.next/static', file), 'utf8'))
      expect(scripts.length).toBeGreaterThan(5)
      for (const script of scripts) {
        expect(script).not.toMatch(/NEXTAUTH_SECRET|LOWMARK_[A-Z_]+|DATABASE_URL|better-sqlite3|BEGIN IMMEDIATE|@prisma\/client/)
      }
    })
  })
}
