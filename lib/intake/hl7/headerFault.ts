import { type RefusedFile, refusedFile } from '../fileBytes.ts'
import { quoted } from '../quoted.ts'
import { namesOurCharacters } from './messageFault.ts'
import { leaf, partOf, receivedField, type Segment } from './segment.ts'

/** Versions in which every field read here stands where it stands in HL7 v2.5.1 and means the same (from memory). */
const VERSIONS: ReadonlySet<string> = new Set(['2.3', '2.3.1', '2.4', '2.5', '2.5.1', '2.6', '2.7', '2.7.1', '2.8', '2.8.1', '2.8.2'])

/** Characters a control id has at most (HL7 v2.7 and later allow 199, earlier ones 20). */
const LONGEST_CONTROL_ID = 199

/** The control id of a message, MSH-10, whole; empty where it has none. */
export function controlIdOf(header: Segment): string {
  return leaf(receivedField(header, 10), header).text.trim()
}

/** Why a message that came over the network is not for this program, told from its header alone; null where it is. */
export function headerFault(header: Segment, called: string): RefusedFile | null {
  const received = (field: number): string => quoted(receivedField(header, field))
  if (partOf(header, 9, 1) !== 'ORU' || partOf(header, 9, 2) !== 'R01') {
    return refusedFile('hl7-no-results', `${called} is of type ${received(9)} (MSH-9); only results, ORU^R01, are taken.`)
  }
  const processing = partOf(header, 11, 1).trim()
  if (processing !== '' && processing !== 'P') {
    return refusedFile('hl7-processing', `${called} is not for production: its processing id (MSH-11) is ${received(11)}, and only P is taken.`)
  }
  if (!VERSIONS.has(partOf(header, 12, 1).trim())) {
    return refusedFile('hl7-version', `${called} is of HL7 version ${received(12)} (MSH-12); versions 2.3 to 2.8.2 are taken.`)
  }
  const controlId = controlIdOf(header)
  if (controlId === '') return refusedFile('hl7-control-id', `${called} has no control id (MSH-10), so that a repetition could not be told.`)
  if (controlId.length > LONGEST_CONTROL_ID) {
    return refusedFile('hl7-control-id', `${called} has a control id (MSH-10) of ${controlId.length} characters; it may have ${LONGEST_CONTROL_ID}.`)
  }
  if (namesOurCharacters(header)) return null
  return refusedFile('hl7-character-set', `${called} says that its characters are ${received(18)} (MSH-18); it needs to be UTF-8.`)
}
