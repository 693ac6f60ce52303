/** A two-core copper lead: there and back. */
export interface Cable {
  /** Cross-section of one conductor, mm². */
  areaMm2: number
  /** One way, m. */
  length: number
  /** Of the conductor, °C. */
  temperature: number
}

/** Cross-section, mm², greatest resistance at 20 °C of plain flexible copper, Ω/km (IEC 60228, class 5). */
const conductors: readonly (readonly [number, number])[] = [
  [0.5, 39],
  [0.75, 26],
  [1, 19.5],
  [1.5, 13.3],
  [2.5, 7.98],
  [4, 4.95],
  [6, 3.3],
  [10, 1.91],
  [16, 1.21],
  [25, 0.78],
]

/**
 * Cross-section, mm², current, A: the lowest of the columns of VDE 0298-4, IEC 60364-5-52 (B2), IEC 60204-1 (B2, 40 °C), of household flexible
 * cords and of an automotive guide. Choosing the lowest is a judgement.
 */
const ratings: readonly (readonly [number, number])[] = [
  [0.5, 3],
  [0.75, 6],
  [1, 10],
  [1.5, 13],
  [2.5, 17],
  [4, 23],
  [6, 30],
  [10, 40],
]

/** Ambient temperature up to which the ratings hold, and the one at which plain PVC insulation carries nothing, °C. */
const ratedTemperature = 40
const insulationLimit = 70

/**
 * Greatest resistance of one conductor of flexible copper at 20 °C, Ω/m. Between the standard's sizes resistance times
 * cross-section is taken linear; beyond them it is held.
 *
 * @param areaMm2 cross-section, mm², above 0
 * @see IEC 60228, class 5, plain
 */
export function resistancePerMetre(areaMm2: number): number {
  const above = conductors.findIndex(([area]) => area >= areaMm2)
  const [area, ohm] = conductors[above < 0 ? conductors.length - 1 : above]!
  const [lesser, lesserOhm] = conductors[above - 1] ?? [area, ohm]
  const share = area === lesser ? 1 : (areaMm2 - lesser) / (area - lesser)
  return (lesserOhm * lesser * (1 - share) + ohm * area * share) / areaMm2 / 1000
}

/**
 * Resistance of a lead, there and back, Ω: R₂₀ (234.5 + T)/254.5.
 *
 * @see IEC 60228
 */
export function cableResistance(cable: Cable): number {
  return (2 * cable.length * resistancePerMetre(cable.areaMm2) * (234.5 + cable.temperature)) / 254.5
}

/**
 * Current that a lead carries for hours, A, conservative: of the next smaller size in the tables; 0 below 0.5 mm², no more than 40 A. Above
 * 40 °C it falls as √((70 − T)/30), by which the tables' factors for PVC, 0.87 at 40 °C and 0.71 at 50 °C, are related.
 */
export function cableRating({ areaMm2, temperature }: Cable): number {
  const [, rating] = ratings.findLast(([area]) => area <= areaMm2) ?? [0, 0]
  if (temperature <= ratedTemperature) return rating
  return rating * Math.sqrt(Math.max(0, insulationLimit - temperature) / (insulationLimit - ratedTemperature))
}

/** Cross-section of a conductor of American gauge 36, mm²; 39 gauges on it is 92² times as large. */
const gauge36 = (Math.PI / 4) * 0.127 ** 2

/**
 * American wire gauge of a cross-section, mm², between the whole ones too.
 *
 * @see ASTM B258: diameters in a geometric row, 0.127 mm for 36 and 92 times that for 0000, which is −3
 */
export const gaugeOf = (areaMm2: number): number => 36 - (39 * Math.log(areaMm2 / gauge36)) / (2 * Math.log(92))

/** Cross-section, mm², of an American wire gauge; the inverse of `gaugeOf`. */
export const areaOfGauge = (gauge: number): number => gauge36 * 92 ** ((2 * (36 - gauge)) / 39)

/** What is to be said of a lead at a current: currents in A, the drop as a share of the voltage. */
export type CableCaution =
  | { code: 'current'; current: number; rating: number }
  | { code: 'drop'; share: number; sensible: number }
  | { code: 'connectors'; rating: number; most: number; current: number }

/** What a lead does at a current. */
export interface CableLoad {
  /** There and back, Ω. */
  resistance: number
  /** V. */
  drop: number
  /** Drop over the voltage at its beginning. */
  dropShare: number
  /** W. */
  loss: number
  /** A. */
  rating: number
  cautions: CableCaution[]
}

/** Of the source's voltage: judgement for a charging lead, as recommended for critical circuits (ABYC E-11) and lighting (IEC 60364-5-52). */
const sensibleDrop = 0.03

/** A connector's printed rating is a ceiling; for hours it is held to this share. Judgement: 50 to 70 %. */
export const connectorShare = 0.6

/**
 * Drop, loss and rating of a lead at a steady current, with what to say about it.
 *
 * @param current A
 * @param voltage at its beginning, V
 * @param connectorRating current printed on the weakest connector, A
 */
export function cableLoad(cable: Cable, current: number, voltage: number, connectorRating: number): CableLoad {
  const resistance = cableResistance(cable)
  const rating = cableRating(cable)
  const drop = current * resistance
  const dropShare = drop / voltage
  const most = connectorShare * connectorRating
  const cautions: CableCaution[] = []
  if (current > rating) cautions.push({ code: 'current', current, rating })
  if (dropShare > sensibleDrop) cautions.push({ code: 'drop', share: dropShare, sensible: sensibleDrop })
  if (current > most) cautions.push({ code: 'connectors', rating: connectorRating, most, current })
  return { resistance, drop, dropShare, loss: current * drop, rating, cautions }
}
