declare module '@lhncbc/ucum-lhc' {
  export interface ConvertedUnit {
    readonly status: 'succeeded' | 'failed' | 'error'
    readonly toVal: number | null
    readonly msg: readonly string[]
  }
  export interface ValidatedUnit {
    readonly status: 'valid' | 'invalid' | 'error'
    readonly ucumCode: string | null
    readonly msg: readonly string[]
  }
  export interface UcumReader {
    validateUnitString(text: string, suggest?: boolean): ValidatedUnit
    convertUnitTo(from: string, value: number, to: string): ConvertedUnit
  }
  export const UcumLhcUtils: { getInstance(): UcumReader }
}
