import { expose } from 'comlink'
import { learnFrom, type Lesson } from '../model/learn/learn'
import type { RideNotes } from '../model/learn/notes'
import type { Plan } from '../model/plan/schema'
import { factsOf, type RideFacts } from '../model/recording/facts'
import { readRecording } from '../model/recording/read'
import type { RecordedCrossing, RecordedHalt, Recording, RecordingFault } from '../model/recording/recording'
import type { Route } from '../model/route/route'
import { localAt, zoneOfRoute } from '../model/world/zone'
import type { FileFault } from './jobs'

/** What a recording says at a glance. */
export interface RideSeen {
  name: string
  /** Local date and time of the first point, by the clock of where it lies. */
  start: string
  facts: RideFacts
  halts: RecordedHalt[]
  crossings: RecordedCrossing[]
  faults: RecordingFault[]
  hasElevation: boolean
}

export type RideReading = { ok: true; seen: RideSeen } | { ok: false; fault: FileFault | { code: 'noTimes' } }

/** A ride to learn from: a file, or nothing but what is remembered of the route. */
export interface RideAsked {
  id: string
  name: string
  file: { bytes: Uint8Array; fileName: string } | undefined
  notes: RideNotes
}

/** Recordings that were read, by the ids of their rides. */
const read = new Map<string, Recording>()

async function recordingOf(id: string, bytes: Uint8Array, fileName: string) {
  const known = read.get(id)
  if (known !== undefined) return { ok: true as const, recording: known }
  const reading = await readRecording(bytes, fileName)
  if (reading.ok) read.set(id, reading.recording)
  return reading
}

const api = {
  async read(id: string, bytes: Uint8Array, fileName: string): Promise<RideReading> {
    const reading = await recordingOf(id, bytes, fileName)
    if (!reading.ok) return reading
    const { recording } = reading
    const { route, start, halts, crossings, faults } = recording
    return {
      ok: true,
      seen: {
        ...{ name: route.name, start: localAt(start, zoneOfRoute(route)), facts: factsOf(recording) },
        ...{ halts, crossings, faults, hasElevation: route.elevationKnown === 'all' },
      },
    }
  },

  /** @param rides whose files can be read */
  async learn(route: Route, plan: Plan, rides: readonly RideAsked[], tell: (share: number) => void): Promise<Lesson> {
    const asked = await Promise.all(
      rides.map(async ({ id, name, file, notes }) => {
        if (file === undefined) return { name, notes, recording: undefined }
        const reading = await recordingOf(id, file.bytes, file.fileName)
        if (!reading.ok) throw new Error(reading.fault.code)
        return { name, notes, recording: reading.recording }
      }),
    )
    return learnFrom(route, plan, asked, tell)
  },
}

export type LearnWorker = typeof api

expose(api)
