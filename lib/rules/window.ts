import { type Finding, WINDOWS, type Window } from './finding.ts'

/** The later of two windows. */
export function laterWindow(a: Window, b: Window): Window {
  return WINDOWS.indexOf(a) >= WINDOWS.indexOf(b) ? a : b
}

/** A possible finding never ranks above within-30-days (clinical.md 1.1). */
export function windowFor(certainty: Finding['certainty'], wanted: Window): Window {
  return certainty === 'possible' ? laterWindow(wanted, 'within-30-days') : wanted
}
