/** Resistance at each step of the road at a usual speed, N, with what may not be joined. */
export interface Course {
  /** Ridden distance of each station, m. */
  distance: ArrayLike<number>
  /** One entry a station, for the step from it to the next; 0 where that is not ridden. */
  resistance: ArrayLike<number>
  /** Stations at which a stretch must end: halts, crossings, changes of the road; with the first and the last, ascending. */
  ends: readonly number[]
  /** Against which stretches are joined no further, J. */
  mostWork: number
}

const shortest = 100 // m
const longest = 2000 // m
/** Stretches are joined until there are so many to the kilometre, or no more than the fewest: a choice. */
const perKilometre = 1
const fewest = 120

interface Part {
  last: number
  length: number
  /** Mean resistance, N. */
  mean: number
}

/**
 * Parts a course into stretches of like terrain, 100 m to 2 km: pieces of 100 m are joined where they differ least (Ward 1963, J. Am. Stat. Assoc.
 * 58:236-244), so that a hill's foot and top are ends of stretches. What takes much work stays parted: all of it with a motor or all without would be coarse.
 *
 * @returns stations at which stretches begin and end: n + 1 for n stretches; one shorter than 100 m only where the course must end so
 */
export function likeTerrain({ distance, resistance, ends, mostWork }: Course): number[] {
  let groups = ends.slice(1).map((end, k) => pieces(distance, resistance, ends[k]!, end))
  const count = () => groups.reduce((sum, parts) => sum + parts.length, 0)
  const length = distance[distance.length - 1]! - distance[0]!
  const enough = Math.max(fewest, (perKilometre * length) / 1000)
  for (let tolerance = 1; count() > enough && tolerance < 1e12; tolerance *= 1.5)
    groups = groups.map((parts) => joined(parts, tolerance, mostWork))
  return [ends[0]!, ...groups.flatMap((parts) => parts.map(({ last }) => last))]
}

function pieces(distance: ArrayLike<number>, resistance: ArrayLike<number>, first: number, end: number): Part[] {
  const parts: Part[] = []
  let from = first
  let sum = 0
  for (let i = first; i < end; i++) {
    sum += resistance[i]! * (distance[i + 1]! - distance[i]!)
    const length = distance[i + 1]! - distance[from]!
    const rest = distance[end]! - distance[i + 1]!
    if (i + 1 < end && (length < shortest || rest < shortest)) continue
    parts.push({ last: i + 1, length, mean: length > 0 ? sum / length : 0 })
    from = i + 1
    sum = 0
  }
  return parts
}

/** Joins neighbours as long as the squares within grow by less than a tolerance, N² m. @param mostWork J */
function joined(parts: readonly Part[], tolerance: number, mostWork: number): Part[] {
  const result: Part[] = []
  for (const part of parts) {
    const before = result.at(-1)
    if (before !== undefined && before.length + part.length <= longest) {
      const length = before.length + part.length
      const grows = ((before.length * part.length) / length) * (before.mean - part.mean) ** 2
      const mean = (before.mean * before.length + part.mean * part.length) / length
      if (grows < tolerance && mean * length <= mostWork) {
        before.mean = mean
        before.length = length
        before.last = part.last
        continue
      }
    }
    result.push({ ...part })
  }
  return result
}
