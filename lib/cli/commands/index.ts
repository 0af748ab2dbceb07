import type { Command } from '../command.ts'
import { accountAdd, accountDisable, accountJoin, accountResetFactor, accountUnjoin } from './account.ts'
import { backup, backupKey, backupVerify } from './backup.ts'
import { demo } from './demo.ts'
import { followUp } from './followUp.ts'
import { health } from './health.ts'
import { held, heldResolve } from './held.ts'
import { heldConfirm, heldDecline, heldShow } from './heldShow.ts'
import { intake } from './intake.ts'
import { list } from './list.ts'
import { listen } from './listen.ts'
import { logHead } from './logHead.ts'
import { logExport, logRetire } from './logOutside.ts'
import { logVerify } from './logVerify.ts'
import { mappingList, mappingRevoke } from './mapping.ts'
import { mergeConfirm, mergeDecline, mergeEnd, mergeList, mergePropose } from './merge.ts'
import { move } from './move.ts'
import { patient } from './patient.ts'
import { recheck } from './recheck.ts'
import { restore } from './restore.ts'
import { sourceList, sourceSet, sourceShow } from './source.ts'

/** Every command, in the order of the usage text. */
export const COMMANDS: readonly Command[] = [
  intake,
  listen,
  sourceList,
  sourceShow,
  sourceSet,
  held,
  heldShow,
  heldResolve,
  heldConfirm,
  heldDecline,
  mappingList,
  mappingRevoke,
  list,
  patient,
  followUp,
  mergePropose,
  mergeConfirm,
  mergeDecline,
  mergeEnd,
  mergeList,
  recheck,
  logVerify,
  logHead,
  logExport,
  logRetire,
  backup,
  backupVerify,
  backupKey,
  restore,
  move,
  health,
  accountAdd,
  accountDisable,
  accountJoin,
  accountUnjoin,
  accountResetFactor,
  demo,
]
