import { powerOf, readingAt } from '../../src/model/readings/at'
import { legsOf, totalsBetween } from '../../src/model/readings/legs'
import { leftAfter, leftAtFinish, type Outcome } from '../../src/model/forecast/outcome'
import { reachFrom } from '../../src/model/readings/reach'
import { imbalance, workIn } from '../balance'
import { braking, coasting, walking, walkingSpeed } from '../../src/model/ride/motion'

/** Asked for is 0.1 %. Each step solves its equation by Newton's method until what is left is of the square of 0.2 %. */
const rideBooksShare = 5e-5
/** Asked for is 0.1 %. */
const electricBooksShare = 1e-3
const rounding = 1e-9
/** What a pack gives below its floor in the step in which it reaches it, J. */
const overshoot = 1000

/**
 * What in an Outcome breaks the laws that every ride obeys, a sentence each; empty if it is sound.
 *
 * @param electricShare by how much the electric books may be off; more for packs that are drained in a few steps
 */
export function violations(outcome: Outcome, electricShare = electricBooksShare): string[] {
  return [
    ...unsound(outcome),
    ...booksOf(outcome, electricShare),
    ...clock(outcome),
    ...speeds(outcome),
    ...motor(outcome),
    ...charge(outcome),
    ...legs(outcome),
    ...reach(outcome),
    ...readings(outcome),
  ]
}

/** The first station at which something is wrong, as a sentence. */
function first(outcome: Outcome, what: string, wrong: (i: number) => boolean, to = stationsOf(outcome)): string[] {
  for (let i = 0; i < to; i++) if (wrong(i)) return [`${what} at station ${i}`]
  return []
}

const stationsOf = ({ route }: Outcome) => route.stations.distance.length
const stepsOf = (outcome: Outcome) => stationsOf(outcome) - 1
const isFar = (a: number, b: number, share: number, floor: number) => !(Math.abs(a - b) <= share * Math.abs(b) + floor)

function unsound(outcome: Outcome): string[] {
  const columns = Object.entries(outcome.columns).flatMap(([name, column]: [string, ArrayLike<number>]) =>
    first(outcome, `${name} is no number`, (i) => !Number.isFinite(column[i])),
  )
  const numbers = Object.entries({ ...outcome.books, ...outcome.electric }).flatMap(
    ([name, value]: [string, number]) => (Number.isFinite(value) ? [] : [`${name} is no number`]),
  )
  return [...columns, ...numbers]
}

function booksOf(outcome: Outcome, electricShare: number): string[] {
  const { books, electric } = outcome
  const found: string[] = []
  const out = books.air + books.rolling + books.bearings + books.braking
  const off = imbalance(books) / Math.max(workIn(books), out, 1)
  if (!(Math.abs(off) <= rideBooksShare)) found.push(`the ride's books are off by ${off}`)
  const spent = electric.motorWork + electric.motorLoss + electric.electronics + electric.packLoss
  if (isFar(spent, electric.drained, electricShare, electricShare * outcome.usable))
    found.push(`the electric books are off: ${spent} J spent of ${electric.drained} J drained`)
  for (const key of ['riderWork', 'motorWork', 'walkingWork', 'rolling', 'bearings', 'drivetrain', 'braking'] as const)
    if (books[key] < 0) found.push(`${key} is negative`)
  for (const key of ['packLoss', 'motorLoss', 'electronics'] as const)
    if (electric[key] < -1e-6) found.push(`${key} is negative`)
  return found
}

function clock(outcome: Outcome): string[] {
  const { columns, halts, route, plan, started } = outcome
  const { distance } = route.stations
  const { time, ridingTime } = columns
  const last = stepsOf(outcome)
  const halted = halts
    .filter(({ station }) => station < last)
    .reduce((sum, { arrive, depart }) => sum + depart - arrive, 0)
  const crossed = halts.filter(({ kind }) => kind === 'crossing')
  const small = (plan.rider.smallHalts * outcome.length) / 100_000
  return [
    ...first(outcome, 'time stands still', (i) => distance[i + 1]! > distance[i]! && !(time[i + 1]! > time[i]!), last),
    ...first(outcome, 'time runs backwards', (i) => !(time[i + 1]! >= time[i]!), last),
    ...first(outcome, 'riding time runs backwards', (i) => !(ridingTime[i + 1]! >= ridingTime[i]!), last),
    ...(isFar(time[last]!, ridingTime[last]! + halted + small, rounding, 0) ? ['time is not riding and halts'] : []),
    ...halts.flatMap(({ arrive, depart }, i) => (depart >= arrive ? [] : [`halt ${i} ends before it begins`])),
    ...(crossed.length === route.crossings.length &&
    crossed.every(
      ({ arrive, depart, sailing }) =>
        sailing !== undefined && !isFar(depart - arrive, sailing.arrive - started - arrive, 0, 1e-6),
    )
      ? []
      : ['the crossings are not those of the route and the plan']),
  ]
}

function speeds(outcome: Outcome): string[] {
  const { columns, route, plan, halts } = outcome
  const { speed, state } = columns
  const { curvature } = route.stations
  const { topSpeed, lateralAcceleration } = plan.bike
  const stopped = halts.filter(({ kind, depart, arrive }) => kind !== 'swap' && depart > arrive)
  return [
    ...first(outcome, 'speed is negative', (i) => !(speed[i]! >= 0)),
    ...first(outcome, 'speed passes its cap', (i) => !(speed[i]! <= topSpeed * (1 + rounding))),
    ...first(
      outcome,
      'a bend is too fast',
      (i) => speed[i]! ** 2 * curvature[i]! > lateralAcceleration * (1 + rounding),
    ),
    ...stopped.flatMap(({ station }) => (speed[station]! < 1e-3 ? [] : [`no standstill at station ${station}`])),
    ...first(
      outcome,
      'walks faster than walking pace',
      (i) =>
        (state[i]! & (walking | braking)) === walking &&
        speed[i]! <= walkingSpeed &&
        speed[i + 1]! > walkingSpeed * (1 + rounding),
      stepsOf(outcome),
    ),
  ]
}

function motor(outcome: Outcome): string[] {
  const { columns, plan, halts } = outcome
  const { speed, state } = columns
  const riderPower = (i: number) => powerOf(columns.riderWork, outcome, i)
  const motorPower = (i: number) => powerOf(columns.motorWork, outcome, i)
  const { limitSpeed, peakPower, ratio, climbRatio, torque } = plan.assist
  const halted = new Set(halts.filter(({ arrive, depart }) => depart > arrive).map(({ station }) => station))
  const leaving = (i: number) => (halted.has(i) ? 0 : speed[i]!)
  const most = Math.max(ratio, climbRatio)
  const force = torque / plan.bike.wheelRadius
  const faster = (i: number) => Math.max(leaving(i), speed[i + 1]!)
  return [
    ...first(outcome, 'motor power is negative', (i) => !(motorPower(i) >= 0), stepsOf(outcome)),
    ...first(outcome, 'motor passes its peak', (i) => motorPower(i) > peakPower * (1 + rounding), stepsOf(outcome)),
    ...first(
      outcome,
      'motor above the legal limit',
      (i) => motorPower(i) > rounding && Math.min(leaving(i), speed[i + 1]!) >= limitSpeed,
      stepsOf(outcome),
    ),
    ...first(
      outcome,
      'motor gives more than its share',
      (i) => motorPower(i) > most * riderPower(i) * (1 + 1e-6) + 1e-6,
      stepsOf(outcome),
    ),
    ...first(
      outcome,
      'motor passes its torque',
      (i) => motorPower(i) > force * Math.max(faster(i), walkingSpeed) * (1 + 1e-6),
      stepsOf(outcome),
    ),
    ...first(
      outcome,
      'rides on while coasting',
      (i) => (state[i]! & coasting) !== 0 && riderPower(i) > 0,
      stepsOf(outcome),
    ),
  ]
}

function charge(outcome: Outcome): string[] {
  const { columns, usable, halts, leftAtStart, electric } = outcome
  const { left, drained } = columns
  const last = stepsOf(outcome)
  const most = usable * (1 + rounding)
  const charged = halts.reduce((sum, { leftBefore, leftAfter }) => sum + leftAfter - leftBefore, 0)
  const departing = left.slice()
  for (const { station, leftAfter } of halts) departing[station] = leftAfter
  const found = [
    ...first(outcome, 'charge is out of bounds', (i) => !(left[i]! >= 0 && left[i]! <= most)),
    ...first(outcome, 'charge rises by itself', (i) => !(left[i + 1]! <= departing[i]! * (1 + rounding)), last),
    ...first(outcome, 'drained falls', (i) => !(drained[i + 1]! >= drained[i]!), last),
    ...halts.flatMap(({ leftBefore, leftAfter }, i) =>
      leftAfter >= leftBefore * (1 - rounding) && leftAfter <= most ? [] : [`halt ${i} takes charge`],
    ),
  ]
  if (isFar(drained[last]!, electric.drained, rounding, 1e-6)) found.push('drained of column and books differ')
  const fallen = leftAtStart + charged - leftAtFinish(outcome)
  // Below the charge at which the motor stops, electronics go on from what no longer counts as left.
  if (outcome.emptyAt === undefined ? isFar(drained[last]!, fallen, 1e-6, overshoot) : drained[last]! < fallen - 10)
    found.push(`${drained[last]} J are drained, but the charge fell by ${fallen} J`)
  return found
}

function legs(outcome: Outcome): string[] {
  const { columns, route } = outcome
  const last = stepsOf(outcome)
  const rows = legsOf(outcome)
  const sum = (key: 'length' | 'ascent' | 'descent' | 'ridingTime' | 'riderWork' | 'motorWork' | 'drained') =>
    rows.reduce((total, row) => total + row[key], 0)
  const whole = totalsBetween(outcome, 0, last)
  const found = (['length', 'ascent', 'descent', 'ridingTime', 'riderWork', 'motorWork', 'drained'] as const).flatMap(
    (key) => (isFar(sum(key), whole[key], 1e-9, 1e-6) ? [`legs' ${key} sums to ${sum(key)}, whole ${whole[key]}`] : []),
  )
  if (isFar(sum('length'), route.length, 1e-9, 1e-6)) found.push('the legs are not the length of the route')
  if (isFar(sum('ascent'), route.ascent, 1e-9, 1e-6)) found.push("the legs' ascent is not that of the route")
  if (isFar(rows.at(-1)!.arrive, columns.time[last]!, rounding, 0))
    found.push('the last leg does not end at the finish')
  rows.slice(1).forEach((row, i) => {
    const before = rows[i]!
    if (row.first !== before.last && route.stations.distance[row.first] !== route.stations.distance[before.last])
      found.push(`leg ${row.number} does not begin where the one before ends`)
    if (row.first === before.last && isFar(row.leftAtStart, leftAfter(outcome, before.last), rounding, 0))
      found.push(`leg ${row.number} does not begin with the charge of departure`)
  })
  return found
}

/** Reach from places along the way never moves backwards, and agrees with the forecast. */
function reach(outcome: Outcome): string[] {
  const { distance } = outcome.route.stations
  const count = stationsOf(outcome)
  const stride = Math.max(1, Math.floor(count / 60))
  const found: string[] = []
  let furthest = 0
  for (let i = 0; i < count; i += stride) {
    const { until, length, spare } = reachFrom(outcome, distance[i]!)
    const end = until ?? outcome.length
    if (!(end >= furthest - 1e-6)) found.push(`reach moves back at station ${i}: ${end} after ${furthest}`)
    if (isFar(length, end - distance[i]!, 0, 1e-6) || length < 0) found.push(`reach is not its length at station ${i}`)
    if (until === undefined && isFar(spare, leftAtFinish(outcome) - outcome.reserve, 1e-6, 1))
      found.push(`spare at station ${i} is ${spare}, not what is left at the finish above the reserve`)
    furthest = end
  }
  const { until } = reachFrom(outcome, 0)
  const { reserveAt } = outcome
  // Whoever starts below the reserve and charges at once is below it at 0 m all the same.
  if (reserveAt === 0) return found
  if ((until === undefined) !== (reserveAt === undefined))
    found.push(`reach from the start is ${until}, the reserve is reached at ${reserveAt}`)
  else if (until !== undefined && !(reserveAt! - until >= -1e-6 && reserveAt! - until <= widestStep(distance)))
    found.push(`reach from the start ends at ${until}, the reserve is reached at ${reserveAt}`)
  return found
}

function widestStep(distance: Float64Array): number {
  let widest = 0
  for (let i = 0; i + 1 < distance.length; i++) widest = Math.max(widest, distance[i + 1]! - distance[i]!)
  return widest
}

/** A reading at a station is the station's. */
function readings(outcome: Outcome): string[] {
  const { columns, route } = outcome
  const { distance, elevation } = route.stations
  const stride = Math.max(1, Math.floor(stationsOf(outcome) / 200))
  const found: string[] = []
  for (let i = 0; i < stationsOf(outcome); i += stride) {
    if (distance[i + 1] === distance[i] || distance[i - 1] === distance[i]) continue // both ends of a crossing are one place
    const reading = readingAt(outcome, distance[i]!)
    for (const [read, column] of [
      [reading.time, columns.time],
      [reading.left, columns.left],
      [reading.drained, columns.drained],
      [reading.speed, columns.speed],
      [reading.elevation, elevation],
    ] as const)
      if (isFar(read, column[i]!, rounding, rounding))
        found.push(`the reading at station ${i} is ${read}, not ${column[i]}`)
  }
  return found
}
