import { buildRoute } from '../route/build'
import { clean, type Cleaned } from '../route/clean'
import { Refusal } from '../route/fault'
import type { Line } from '../route/line'
import { notesOn } from '../route/notes'
import type { Points } from '../route/points'
import { type Cleaning, nameFor, open } from '../route/read'
import { type Doing, WHOLE_FILE } from '../route/reading'
import type { Route } from '../route/route'
import { isMadeUp } from './made-up'
import type { RecordingFault, RecordingReading, SensorSamples } from './recording'
import { standing, type Stood } from './standing'
import { clocked } from './times'

/**
 * A ride that was ridden, from the bytes of a route file with times. What looks travelled is taken out, as are drop-outs and times that can't be.
 *
 * @param bytes the file
 * @param fileName names the way where the file has no name
 * @param progress called with the share done, 0 to 1, and what is being done
 * @returns the recording, or what is wrong with the file and where; never throws for a bad file
 */
export async function readRecording(
  bytes: Uint8Array,
  fileName: string,
  progress: (share: number, doing: Doing) => void = () => {},
): Promise<RecordingReading> {
  try {
    let stood: Stood[] = []
    const settle = (points: Points) => {
      const settled = standing(points)
      stood = settled.halts
      return settled.points
    }
    const cleaning: Cleaning = (parts, riddenGaps, marked) => {
      const first = clean(parts, riddenGaps, marked, undefined, settle)
      // A second time without what looks travelled: in a recording no one else decides.
      return first.proposals.length === 0 ? first : clean(parts, riddenGaps, first.proposals, undefined, settle)
    }
    const { file, lines, used, cleaned } = await open(bytes, WHOLE_FILE, progress, cleaning, true)
    progress(0.8, 'smoothing')
    const names = used.map((line) => lines[line]!.name)
    const route = buildRoute(nameFor(names, file.name, fileName), cleaned, [], notesOn(cleaned, lines, used))
    const ridden = used.map((line) => lines[line]!)
    return recordingOf(route, cleaned, stood, ridden)
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, fault: error.fault }
    throw error
  }
}

function recordingOf(
  route: Route,
  { time, counts }: Cleaned,
  stood: readonly Stood[],
  lines: readonly Line[],
): RecordingReading {
  const known = time.filter((t) => !Number.isNaN(t))
  const start = known[0]
  const finish = known.at(-1)
  if (start === undefined || finish === undefined || known.length < time.length / 2 || !(finish > start))
    return { ok: false, fault: { code: 'noTimes' } }
  const { dropOuts, ...clock } = clocked(route, time, stood)
  const faults: RecordingFault[] = []
  if (dropOuts.count > 0) faults.push({ code: 'dropOuts', ...dropOuts })
  const clockErrors = counts.backwardTimes + counts.impossibleTimes
  if (clockErrors > 0) faults.push({ code: 'clockErrors', count: clockErrors })
  const without = time.length - known.length
  if (without > 0) faults.push({ code: 'pointsWithoutTime', count: without, points: time.length })
  if (isMadeUp(route, clock)) faults.push({ code: 'madeUpTimes' })
  return { ok: true, recording: { route, time, start, finish, ...clock, faults, sensors: samplesOf(lines) } }
}

/** What the lines' sensors measured, by time. */
function samplesOf(lines: readonly Line[]): SensorSamples | undefined {
  const samples = lines
    .flatMap(({ parts }) => parts)
    .flatMap(({ time, sensors }) =>
      sensors === undefined
        ? []
        : Array.from(time, (t, i) => ({
            time: t,
            power: sensors.power[i]!,
            heartRate: sensors.heartRate[i]!,
            cadence: sensors.cadence[i]!,
          })),
    )
    .filter((sample) => !Number.isNaN(sample.time))
    .sort((a, b) => a.time - b.time)
  if (samples.length === 0) return undefined
  const column = (key: keyof SensorSamples) => Float64Array.from(samples, (sample) => sample[key])
  return {
    time: column('time'),
    power: column('power'),
    heartRate: column('heartRate'),
    cadence: column('cadence'),
  }
}
