import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { defaultPlan } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { WHOLE_FILE } from '../../src/model/route/reading'
import { StorageError, type StorageFault } from '../../src/state/database'
import { History } from '../../src/state/history'
import { Keeper } from '../../src/state/keeper'
import type { Store, Writing } from '../../src/state/store'

const bytes = Uint8Array.of(1, 2, 3)
const plain = defaultPlan()
const planOf = (power: number): Plan => ({ ...plain, rider: { ...plain.rider, power } })
const state = (power: number) => ({ choice: WHOLE_FILE, plan: planOf(power) })
const powerIn = (text: string) => (JSON.parse(text) as Plan).rider.power

/** A store that answers when it is told to. */
class Slow {
  readonly asked: { writing: Writing; answer: (fault?: StorageFault) => Promise<void> }[] = []
  keep(writing: Writing): Promise<void> {
    return new Promise((resolve, reject) => {
      const answer = async (fault?: StorageFault) => {
        if (fault === undefined) resolve()
        else reject(new StorageError(fault))
        await vi.advanceTimersByTimeAsync(0)
      }
      this.asked.push({ writing, answer })
    })
  }
}

let store: Slow
let told: (StorageFault | undefined)[]
let keeper: Keeper
beforeEach(() => {
  vi.useFakeTimers()
  store = new Slow()
  told = []
  keeper = new Keeper(store as unknown as Store, String, (fault) => told.push(fault))
})
afterEach(() => void vi.useRealTimers())

const head = (id: string) => ({ id, name: id, isNamed: false, route: 'key', fileName: `${id}.gpx` })
const keep = (history: History<ReturnType<typeof state>>, id = 'a', isRiders = false) =>
  keeper.keep({ day: head(id), bytes, timeline: history.timeline, isRiders })

describe('Keeper', () => {
  it('sends the first at once with its route, and later ones without it', async () => {
    const history = new History(state(100))
    keep(history)
    expect(store.asked).toHaveLength(1)
    const { writing, answer } = store.asked[0]!
    expect(writing).toMatchObject({ bytes, steps: { forget: 'all', put: [] }, day: { id: 'a', at: 0 } })
    await answer()
    expect(told).toEqual([undefined])
    history.edit(state(101))
    keep(history)
    expect(store.asked[1]!.writing).toMatchObject({ bytes: undefined, day: { at: 1 } })
    expect(powerIn(store.asked[1]!.writing.day.plan)).toBe(101)
  })

  it('writes of the steps only what is new, and forgets what is no step any more', () => {
    const history = new History(state(100))
    keep(history)
    for (const power of [101, 102]) history.edit(state(power))
    keep(history)
    const steps = () => {
      const { forget, put } = store.asked.at(-1)!.writing.steps
      return { forget, put: put.map(([at, { plan }]) => [at, powerIn(plan)]) }
    }
    expect(steps()).toEqual({
      forget: [],
      put: [
        [1, 101],
        [0, 100],
      ],
    })
    history.undo()
    keeper.flush()
    keep(history)
    keeper.flush()
    expect(steps()).toEqual({ forget: [1], put: [[2, 102]] })
    history.edit(state(103))
    keep(history)
    keeper.flush()
    expect(steps()).toEqual({ forget: [2], put: [[1, 101]] })
  })

  it('keeps the nearest fifty steps to either side', () => {
    const history = new History(state(0))
    for (let power = 1; power <= 120; power++) history.edit(state(power))
    for (let i = 0; i < 60; i++) history.undo()
    keep(history)
    const numbers = store.asked[0]!.writing.steps.put.map(([at]) => at).sort((a, b) => a - b)
    expect(numbers).toEqual([...Array(101).keys()].map((k) => k + 10).filter((at) => at !== 60))
  })

  it('keeps no more of them than have room', () => {
    const long = (power: number) => {
      const { choice, plan } = state(power)
      return { choice, plan: { ...plan, zone: 'x'.repeat(300_000) } }
    }
    const history = new History(long(0))
    for (let power = 1; power <= 20; power++) history.edit(long(power))
    keep(history)
    expect(store.asked[0]!.writing.steps.put.map(([at]) => at)).toEqual([19, 18, 17, 16, 15, 14])
  })

  it('sends of what comes while two are on their way only the last, and all when the page is left', async () => {
    const history = new History(state(100))
    for (let power = 101; power <= 106; power++) {
      history.edit(state(power))
      keep(history)
    }
    const sent = () => store.asked.map(({ writing }) => powerIn(writing.day.plan))
    expect(sent()).toEqual([101, 102])
    await store.asked[0]!.answer()
    expect(sent()).toEqual([101, 102, 106])
    history.edit(state(107))
    keep(history)
    expect(sent()).toHaveLength(3)
    keeper.flush()
    expect(sent()).toEqual([101, 102, 106, 107])
  })

  it('keeps what waits of one day when another is opened', async () => {
    const [one, other] = [new History(state(1)), new History(state(2))]
    keep(one, 'a')
    keep(one, 'a')
    keep(one, 'a')
    keep(other, 'b')
    await store.asked[0]!.answer()
    await store.asked[1]!.answer()
    expect(store.asked.map(({ writing }) => writing.day.id)).toEqual(['a', 'a', 'a', 'b'])
  })

  it('says why it is not kept, tries again with all of it, and says when it is', async () => {
    const history = new History(state(100))
    keep(history, 'a', true)
    await store.asked[0]!.answer()
    history.edit(state(101))
    keep(history, 'a', true)
    await store.asked[1]!.answer('full')
    expect(told).toEqual([undefined, 'full'])
    expect(store.asked).toHaveLength(2)
    await vi.advanceTimersByTimeAsync(10_000)
    const again = store.asked[2]!
    expect(again.writing).toMatchObject({ bytes, steps: { forget: 'all', put: [[0, {}]] }, rider: '[object Object]' })
    await again.answer()
    expect(told).toEqual([undefined, 'full', undefined])
    await vi.advanceTimersByTimeAsync(60_000)
    expect(store.asked).toHaveLength(3)
  })

  it('is settled when all that waits is kept', async () => {
    const history = new History(state(100))
    for (let i = 0; i < 3; i++) keep(history)
    let isSettled = false
    const settled = keeper.settled().then(() => (isSettled = true))
    expect(store.asked).toHaveLength(3)
    for (const { answer } of store.asked) {
      expect(isSettled).toBe(false)
      await answer()
    }
    await settled
    expect(isSettled).toBe(true)
  })

  it('says that no answer comes, until it comes', async () => {
    keep(new History(state(100)))
    await vi.advanceTimersByTimeAsync(2999)
    expect(told).toEqual([])
    await vi.advanceTimersByTimeAsync(1)
    expect(told).toEqual(['silent'])
    await store.asked[0]!.answer()
    expect(told).toEqual(['silent', undefined])
  })
})
