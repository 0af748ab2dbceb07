declare module 'jstat' {
  export interface Distributions {
    readonly studentt: { inv(p: number, degrees: number): number }
    readonly chisquare: { inv(p: number, degrees: number): number; cdf(x: number, degrees: number): number }
    readonly normal: { cdf(x: number, mean: number, deviation: number): number; inv(p: number, mean: number, deviation: number): number }
    readonly binomial: { cdf(count: number, of: number, share: number): number }
    inv(matrix: readonly (readonly number[])[]): readonly (readonly number[])[]
  }
  const library: { readonly jStat: Distributions }
  export default library
}
