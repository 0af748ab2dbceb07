// MLLP: <VT> message <FS> <CR> (HL7, Minimal Lower Layer Protocol).
const [VT, FS, CR, LF] = [0x0b, 0x1c, 0x0d, 0x0a]

/** Bytes a message on the network has at most (ours): a message of results has a few thousand. */
export const MOST_MESSAGE_BYTES = 1024 * 1024

/** Why what comes over a connection is no series of framed messages. Nothing behind it can be told apart any more. */
export type FrameFault = 'outside-frame' | 'frame-in-frame' | 'frame-end' | 'frame-too-large'

export interface ReadFrames {
  /** The messages that ended in these bytes, in their order, without their frames. */
  readonly messages: readonly Uint8Array[]
  /** What is wrong behind the last of them; null where all is well. */
  readonly fault: FrameFault | null
}

/** Reads the bytes of one connection in whatever pieces they come. */
export interface FrameReader {
  read(chunk: Uint8Array): ReadFrames
  /** True where a message has begun and not ended. */
  isInside(): boolean
}

/**
 * A reader of frames that keeps at most `most` bytes of a message. Blank line ends between frames are let pass. Once it has found a fault it reads no
 * further and answers it again.
 */
export function frameReader(most = MOST_MESSAGE_BYTES): FrameReader {
  let place: 'between' | 'inside' | 'ending' = 'between'
  // Copied, never a view: a message that comes byte by byte must not keep every packet it came in.
  let kept = new Uint8Array(256)
  let size = 0
  let fault: FrameFault | null = null

  function keep(byte: number): void {
    if (size === kept.length) {
      const larger = new Uint8Array(Math.min(size * 2, most))
      larger.set(kept)
      kept = larger
    }
    kept[size++] = byte
  }

  function outside(byte: number): FrameFault | null {
    if (byte === CR || byte === LF) return null
    if (byte !== VT) return 'outside-frame'
    ;[place, size] = ['inside', 0]
    return null
  }

  function inside(byte: number): FrameFault | null {
    if (byte === FS) place = 'ending'
    else if (byte === VT) return 'frame-in-frame'
    else if (size >= most) return 'frame-too-large'
    else keep(byte)
    return null
  }

  return {
    read(chunk) {
      const messages: Uint8Array[] = []
      for (const byte of fault === null ? chunk : []) {
        if (place === 'between') fault = outside(byte)
        else if (place === 'inside') fault = inside(byte)
        else if (byte !== CR) fault = 'frame-end'
        else {
          messages.push(kept.slice(0, size))
          place = 'between'
        }
        if (fault !== null) break
      }
      return { messages, fault }
    },
    isInside: () => place !== 'between',
  }
}

/** A text of HL7 as the bytes of one frame, in UTF-8. */
export function framed(text: string): Uint8Array {
  const message = new TextEncoder().encode(text)
  const frame = new Uint8Array(message.length + 3)
  frame.set([VT])
  frame.set(message, 1)
  frame.set([FS, CR], message.length + 1)
  return frame
}
