/** A patient's name as pages print it, family name first; null where none is recorded. */
export function personName({ familyName, givenName }: { readonly familyName: string | null; readonly givenName: string | null }): string | null {
  return [familyName, givenName].filter((part) => part !== null).join(', ') || null
}
