import { expose } from 'comlink'
import { describe, expect, it, vi } from 'vitest'
import type { Route } from '../../src/model/route/route'
import { evenEdges, rideMixed, ridesToExplain } from '../../src/model/studies/causes'
import { defaultPlan } from '../../src/model/plan/defaults'
import { jobDesk } from '../../src/work/job-desk'
import { Pool } from '../../src/work/pool'
import { courseRoute } from '../routes'

const wait = (time: number) => new Promise((resolve) => setTimeout(resolve, time))

let counted = 0

/** Jobs that wait until they are let go on, where they are to. */
const jobs = {
  rideMixed,
  add: (route: Route, by: number) => route.length + by,
  count: () => counted++,
  fail: (): number => {
    throw new RangeError('as told')
  },
}

/** Workers in this thread. A slow one answers when it is let. */
function fakeWorkers(isSlow = false) {
  const made: { ended: boolean; held: number; dropped: number; worked: unknown[][]; fail: () => void }[] = []
  const waiting: (() => void)[] = []
  const open = () => {
    const { port1, port2 } = new MessageChannel()
    const events = new EventTarget()
    const desk = jobDesk(jobs)
    const worker = {
      ended: false,
      held: 0,
      dropped: 0,
      worked: [] as unknown[][],
      fail: () => events.dispatchEvent(new Event('error')),
    }
    made.push(worker)
    expose(
      {
        hold: (route: Route) => {
          worker.held++
          desk.hold(route)
        },
        work: async (job: string, inputs: unknown[], tell: (done: number) => void) => {
          worker.worked.push(inputs)
          if (isSlow) {
            tell(0.5)
            await new Promise<void>((resolve) => waiting.push(resolve))
          }
          return desk.work(job, inputs, tell)
        },
        drop: () => {
          worker.dropped++
          desk.drop()
        },
      },
      port2,
    )
    port1.start()
    const addEventListener = (type: string, listener: EventListener) =>
      type === 'error' ? events.addEventListener(type, listener) : port1.addEventListener(type, listener)
    return Object.assign(Object.create(port1) as Worker, {
      postMessage: port1.postMessage.bind(port1),
      addEventListener,
      removeEventListener: port1.removeEventListener.bind(port1),
      start: port1.start.bind(port1),
      terminate: () => {
        worker.ended = true
        port1.close()
      },
    })
  }
  const letGo = () => waiting.splice(0).forEach((go) => go())
  return { open, made, waiting, letGo }
}

const route = courseRoute({ length: 4000, elevation: (d) => 40 * Math.sin(d / 300) })

describe('a pool of workers', () => {
  it('gives what one thread gives, in order, whatever the number of workers', async () => {
    const plan = defaultPlan()
    const other = { ...plan, bike: { ...plan.bike, luggage: 20, dragArea: 0.7 }, rider: { ...plan.rider, power: 90 } }
    const rides = ridesToExplain(route, plan, { ...other, start: '2027-01-01T04:00' }, evenEdges(route, 4))
    const alone = rides.map((ride) => rideMixed(route, ride))
    for (const size of [1, 2, 3, 7]) {
      const { open, made } = fakeWorkers()
      const told: number[] = []
      const got = await new Pool<typeof jobs>(open, size)
        .queue()
        .run('rideMixed', route, rides, (share) => told.push(share))
      expect(got).toEqual({ ok: true, results: alone })
      expect(made).toHaveLength(size)
      expect(told.at(-1)).toBe(1)
      expect(told).toEqual([...new Set(told)].sort((a, b) => a - b))
    }
  })

  it('sends a route once to each worker, and keeps the workers', async () => {
    const { open, made } = fakeWorkers()
    const queue = new Pool<typeof jobs>(open, 2).queue()
    const inputs = Array.from({ length: 100 }, (_, i) => i)
    for (let k = 0; k < 3; k++)
      expect(await queue.run('add', route, inputs)).toEqual({ ok: true, results: inputs.map((i) => 4000 + i) })
    expect(made.map(({ held, ended }) => [held, ended])).toEqual([
      [1, false],
      [1, false],
    ])
    expect(await queue.run('add', courseRoute({ length: 70 }), [1])).toEqual({ ok: true, results: [71] })
    expect(made.map(({ held }) => held).sort()).toEqual([1, 2])
    expect(await queue.run('add', route, [])).toEqual({ ok: true, results: [] })
  })

  it('ends an older batch with a newer one of the same queue, and leaves those of others', async () => {
    const { open, made, letGo, waiting } = fakeWorkers(true)
    const pool = new Pool<typeof jobs>(open, 2)
    const [mine, others] = [pool.queue(), pool.queue()]
    const told: string[] = []
    const first = mine.run('add', route, [1, 2, 3, 4], () => told.push('first'))
    const beside = others.run('add', route, [5])
    const second = mine.run('add', route, [6], () => told.push('second'))
    expect(await first).toEqual({ ok: false, why: 'superseded' })
    for (let k = 0; k < 9; k++) {
      letGo()
      await wait(20)
    }
    expect(await second).toEqual({ ok: true, results: [4006] })
    expect(await beside).toEqual({ ok: true, results: [4005] })
    expect(told).not.toContain('first')
    expect(made.map(({ ended }) => ended)).toEqual([false, false])
    const third = mine.run('add', route, [7])
    await wait(20)
    mine.cancel()
    expect(await third).toEqual({ ok: false, why: 'superseded' })
    expect(waiting).toHaveLength(1)
  })

  it('ends a worker that stays at what nobody waits for, and puts another in its place', async () => {
    const { open, made, letGo } = fakeWorkers(true)
    const queue = new Pool<typeof jobs>(open, 1).queue()
    void queue.run('add', route, [1])
    await wait(20)
    const told: number[] = []
    const second = queue.run('add', route, [2], (share) => told.push(share))
    await vi.waitFor(() => expect(made.map(({ ended }) => ended)).toEqual([true, false]))
    await vi.waitFor(() => expect(told, 'how far a job is').toEqual([0.5]))
    letGo()
    expect(await second).toEqual({ ok: true, results: [4002] })
  })

  it('goes no further than the input it is at where nobody waits any more, and does the next thing', async () => {
    const { open, made } = fakeWorkers()
    const queue = new Pool<typeof jobs>(open, 1).queue()
    const before = counted
    const dropped = queue.run('count', route, Array<number>(128).fill(0))
    await vi.waitFor(() => expect(counted).toBeGreaterThan(before), { interval: 0 })
    queue.cancel()
    expect(await dropped).toEqual({ ok: false, why: 'superseded' })
    expect(await queue.run('add', route, [3])).toEqual({ ok: true, results: [4003] })
    expect(counted - before).toBeLessThan(64)
    expect(made.map(({ ended, dropped }) => [ended, dropped])).toEqual([[false, 1]])
  })

  it('takes parts of several batches in turn', async () => {
    const { open, made } = fakeWorkers()
    const pool = new Pool<typeof jobs>(open, 1)
    const long = pool.queue().run('add', route, Array<number>(256).fill(0))
    const short = pool.queue().run('add', route, [9])
    expect(await Promise.race([long, short])).toEqual({ ok: true, results: [4009] })
    await long
    expect(made[0]!.worked.map(({ length }) => length)).toEqual([64, 1, 64, 64, 64])
  })

  it('says where a job throws or a worker does not start, and goes on with the next', async () => {
    const { open, made, letGo } = fakeWorkers(true)
    const queue = new Pool<typeof jobs>(open, 2).queue()
    const first = queue.run('add', route, [1])
    made[0]!.fail()
    expect(await first).toEqual({ ok: false, why: 'notStarted' })
    const error = vi.spyOn(console, 'error').mockImplementation(() => undefined)
    const failed = queue.run('fail', route, [1 as never])
    await vi.waitFor(() => expect(made).toHaveLength(2))
    await wait(20)
    letGo()
    expect(await failed).toEqual({ ok: false, why: 'failed' })
    expect(error).toHaveBeenCalledOnce()
    error.mockRestore()
    const third = queue.run('add', route, [3])
    await wait(20)
    letGo()
    expect(await third).toEqual({ ok: true, results: [4003] })
  })
})
