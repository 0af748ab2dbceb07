/** What Next.js tells the sign-in's route of its address. */
export interface SignInContext {
  readonly params: Promise<{ nextauth: string[] }>
}
