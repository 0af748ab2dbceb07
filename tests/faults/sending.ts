/**
 * A laboratory: sends so many messages of two results, each again and again until it is acknowledged, and prints each number once it is. Some
 * acknowledgements it never reads, as when a line is lost: those messages it sends again.
 */
import { writeSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { type Sender, sender, told } from '../cli/sender.ts'
import { fileOf, msh, obr, obx, pid } from '../intake/hl7/messages.ts'

const [port = '', name = '', count = '0'] = process.argv.slice(2)

function message(n: number): string {
  const id = `${name}-${n}`
  const on = new Date(Date.UTC(2024, 0, 1 + n)).toISOString().slice(0, 10).replaceAll('-', '')
  const order = obr({ 3: id, 7: on })
  return fileOf(msh({ 3: name, 10: id }), pid({ 3: `P${n % 4}^^^CLINIC^MR` }), order, obx(), obx({ 3: '2465-3^IgG^LN', 5: '7.5' }))
}

async function answered(lab: Sender, n: number): Promise<boolean> {
  if (Math.random() < 0.15) {
    lab.write(Buffer.from(`\x0b${message(n)}\x1c\r`))
    await pause(Math.random() * 20)
    lab.close()
    return false
  }
  const answer = told(await lab.send(message(n)))
  if (answer !== null && answer !== `AA ${name}-${n}`) writeSync(1, `not accepted: ${answer}\n`)
  return answer === `AA ${name}-${n}`
}

let lab: Sender | null = null
for (let n = 0; n < Number(count); ) {
  if (lab === null || lab.socket.destroyed) {
    lab?.close()
    await pause(10)
    lab = sender(Number(port))
  }
  if (await answered(lab, n)) {
    writeSync(1, `${n}\n`)
    n += 1
  }
}
lab?.close()
