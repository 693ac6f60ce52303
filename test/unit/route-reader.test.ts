import { expose } from 'comlink'
import { describe, expect, it } from 'vitest'
import { type FileReading, RouteReader } from '../../src/work/jobs'

const answer = (root: string): FileReading => ({ ok: false, fault: { code: 'otherRoot', root } })

/** A worker in this thread: answers with the file's name when told to. */
function fakeWorkers() {
  const made: { ended: boolean; fail: () => void }[] = []
  const release: (() => void)[] = []
  const open = () => {
    const { port1, port2 } = new MessageChannel()
    const events = new EventTarget()
    const worker = { ended: false, fail: () => events.dispatchEvent(new Event('error')) }
    made.push(worker)
    expose(
      {
        read: async (_: Uint8Array, name: string, __: unknown, onProgress: (share: number, doing: string) => void) => {
          onProgress(0.5, name)
          await new Promise<void>((resolve) => release.push(resolve))
          setTimeout(() => onProgress(1, 'late'))
          return answer(name)
        },
      },
      port2,
    )
    port1.start()
    const terminate = () => {
      worker.ended = true
      port1.close()
    }
    const addEventListener = (type: string, listener: EventListener) =>
      type === 'error' ? events.addEventListener(type, listener) : port1.addEventListener(type, listener)
    return Object.assign(Object.create(port1) as Worker, {
      postMessage: port1.postMessage.bind(port1),
      addEventListener,
      removeEventListener: port1.removeEventListener.bind(port1),
      start: port1.start.bind(port1),
      terminate,
    })
  }
  return { open, made, release }
}

const choice = { line: 'joined' as const, riddenGaps: [] }
const file = (fileName: string) => ({ bytes: new Uint8Array(1), fileName })
const settled = () => new Promise((resolve) => setTimeout(resolve, 20))

describe('RouteReader', () => {
  it('reads in a worker, tells progress, and keeps the worker for the next file', async () => {
    const { open, made, release } = fakeWorkers()
    const reader = new RouteReader(open)
    const told: string[] = []
    const first = reader.read(file('first'), choice, (share, doing) => told.push(`${share} ${doing}`))
    await settled()
    release[0]!()
    expect(await first).toEqual(answer('first'))
    await settled()
    expect(told, 'nothing once the reading is there').toEqual(['0.5 first'])
    const second = reader.read(file('second'), choice, () => {})
    await settled()
    release[1]!()
    expect(await second).toEqual(answer('second'))
    expect(made.length).toBe(1)
  })

  it('a newer file ends the reading of an older one', async () => {
    const { open, made, release } = fakeWorkers()
    const reader = new RouteReader(open)
    const told: string[] = []
    const first = reader.read(file('first'), choice, () => told.push('first'))
    const second = reader.read(file('second'), choice, () => told.push('second'))
    expect(await first).toBe('superseded')
    expect(made.map(({ ended }) => ended)).toEqual([true, false])
    await settled()
    release[release.length - 1]!()
    expect(await second).toEqual(answer('second'))
    expect(told).toEqual(['second'])
  })

  it('a reading that is cancelled ends its worker, and the next file is read', async () => {
    const { open, made, release } = fakeWorkers()
    const reader = new RouteReader(open)
    reader.cancel()
    const told: string[] = []
    const first = reader.read(file('first'), choice, () => told.push('first'))
    reader.cancel()
    expect(await first).toBe('superseded')
    expect(made.map(({ ended }) => ended)).toEqual([true])
    const second = reader.read(file('second'), choice, () => {})
    await settled()
    release[release.length - 1]!()
    expect(await second).toEqual(answer('second'))
    expect(told).toEqual([])
  })

  it('a worker that does not start is said, and the next file gets a new one', async () => {
    const { open, made, release } = fakeWorkers()
    const reader = new RouteReader(open)
    const first = reader.read(file('first'), choice, () => {})
    made[0]!.fail()
    expect(await first).toEqual({ ok: false, fault: { code: 'notStarted' } })
    const second = reader.read(file('second'), choice, () => {})
    await settled()
    release[release.length - 1]!()
    expect(await second).toEqual(answer('second'))
    expect(made.length).toBe(2)
  })
})
