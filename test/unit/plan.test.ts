import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readPlan, writePlan } from '../../src/model/plan/check'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { planJsonSchema, schemaFile } from '../plan-schema'

const sentence = (text: string) => {
  const reading = readPlan(text)
  if (reading.ok) throw new Error('This plan was taken.')
  return reading.sentence
}
const changed = (change: (plan: Plan) => void) => {
  const plan = defaultPlan()
  change(plan)
  return writePlan(plan)
}

describe('the plan at its door', () => {
  it('comes back as it went', () => {
    const plan = { ...defaultPlan(), stops: [defaultStop('stop-1', 'Mill', 82_000, 'source-1')] }
    expect(readPlan(writePlan(plan))).toEqual({ ok: true, plan })
  })

  it('is refused with one sentence that names the one thing that is wrong', () => {
    expect(sentence('no plan')).toMatch(/not JSON/)
    expect(sentence('{}')).toMatch(/format/)
    expect(sentence(changed((plan) => ((plan as { version: number }).version = 99)))).toMatch(/version 99, newer/)
    expect(sentence(changed((plan) => (plan.rider.mass = 1)))).toMatch(/“rider\.mass”/)
    expect(sentence(changed((plan) => (plan.battery.packs = [])))).toMatch(/“battery\.packs”/)
    expect(sentence(changed((plan) => (plan.battery.packs[1]!.id = 'pack-1')))).toMatch(/Two packs.*“pack-1”/)
    expect(sentence(changed((plan) => (plan.stops = [defaultStop('stop-1', 'Inn', 1, 'gone')])))).toMatch(/“Inn”/)
    expect(sentence(changed((plan) => (plan.start = '2027-02-30T06:00')))).toMatch(/calendar/)
    expect(sentence(changed((plan) => ((plan.bike as Record<string, number>).colour = 1)))).toMatch(/colour/)
  })
})

describe('the published schema', () => {
  it('is what the program checks by', () => {
    expect(readFileSync(schemaFile, 'utf8')).toBe(planJsonSchema())
  })

  it('holds every bound of the catalogue', () => {
    const schema = JSON.parse(planJsonSchema()) as {
      properties: { rider: { properties: Record<string, { minimum: number; maximum: number; description: string }> } }
    }
    expect(schema.properties.rider.properties.mass).toMatchObject({ minimum: 35, maximum: 180 })
    expect(schema.properties.rider.properties.mass!.description).toContain('kg')
  })
})
