/** A number as it is written may be off by half of its last place: between two ends. */
export type Span = readonly [low: number, high: number]

/** What each unit is in SI; minutes, hours and days are parts of times. */
const units: Readonly<Record<string, number>> = {
  '': 1,
  '%': 0.01,
  Wh: 3600,
  kJ: 1000,
  'Wh/km': 3.6,
  'Wh/mi': 3600 / 1609.344,
  km: 1000,
  mi: 1609.344,
  m: 1,
  ft: 0.3048,
  'km/h': 1 / 3.6,
  mph: 0.44704,
  kg: 1,
  g: 0.001,
  lb: 0.45359237,
  oz: 0.45359237 / 16,
  W: 1,
  V: 1,
  A: 1,
  mΩ: 0.001,
  'rad/s': 1,
  'N·m': 1,
  N: 1,
  mm: 0.001,
  s: 1,
}

const amount = String.raw`[\d,]*\d(?:\.\d+)?`
const clock = /^(\d\d):(\d\d)(?: ([+−])(\d+) d)?(?![\d:])/
const place = new RegExp(`^(km|mile) (${amount})`)
const time = /^(?:(\d+) h ?)?(?:([\d.]+) min ?)?(?:([\d.]+) s)?/
const plain = new RegExp(
  `^(${amount}) ?(Wh/km|Wh/mi|km/h|rad/s|N·m|mph|Wh|kJ|km|mΩ|mi|mm|ft|kg|lb|oz|m|g|W|V|A|N|%)?(?![\\p{L}\\d])`,
  'u',
)

const toNumber = (text: string) => Number(text.replaceAll(',', ''))
/** Half of the last place that is written. */
const half = (text: string) => 0.5 * 10 ** -(text.split('.')[1]?.length ?? 0)
const about = (value: number, by: number): Span => [value - by, value + by]

/** One quantity at the beginning of a text, in SI, and what is left of the text. */
function quantityIn(text: string): [Span, string] {
  const from = (rest: RegExpExecArray, span: Span): [Span, string] => [span, text.slice(rest[0].length)]
  const ofClock = clock.exec(text)
  if (ofClock !== null) {
    const [, hours, minutes, sign, days = '0'] = ofClock
    const day = (sign === '−' ? -86_400 : 86_400) * Number(days)
    return from(ofClock, about(day + 3600 * Number(hours) + 60 * Number(minutes), 30))
  }
  const ofPlace = place.exec(text)
  if (ofPlace !== null) {
    const unit = ofPlace[1] === 'km' ? 1000 : 1609.344
    return from(ofPlace, about(unit * toNumber(ofPlace[2]!), unit * half(ofPlace[2]!)))
  }
  const ofTime = time.exec(text)
  if (ofTime !== null && ofTime[0] !== '') {
    const [, hours = '0', minutes = '0', seconds] = ofTime
    const whole = 3600 * Number(hours) + 60 * Number(minutes) + Number(seconds ?? 0)
    return from(ofTime, about(whole, seconds === undefined ? 60 * half(minutes) : half(seconds)))
  }
  const ofPlain = plain.exec(text)
  if (ofPlain === null) throw new Error(`No quantity: ${text}`)
  const unit = units[ofPlain[2] ?? '']!
  return from(ofPlain, about(unit * toNumber(ofPlain[1]!), unit * half(ofPlain[1]!)))
}

const corners = ([a, b]: Span, [c, d]: Span, of: (x: number, y: number) => number): Span => {
  const all = [of(a, c), of(a, d), of(b, c), of(b, d)]
  return [Math.min(...all), Math.max(...all)]
}
const signs: Readonly<Record<string, (x: number, y: number) => number>> = {
  '+': (x, y) => x + y,
  '−': (x, y) => x - y,
  '×': (x, y) => x * y,
  '/': (x, y) => x / y,
}

/** What a sum comes to that is written out with its quantities, as `(820 Wh − 412 Wh) / 1,001 Wh`, in SI: between what ends, as they are rounded. */
export function reckoned(text: string): Span {
  let rest = text.trim()
  const factor = (): Span => {
    if (rest.startsWith('−')) {
      rest = rest.slice(1).trim()
      const [low, high] = factor()
      return [-high, -low]
    }
    if (rest.startsWith('(')) {
      rest = rest.slice(1).trim()
      const inner = chain(['+', '−'], () => chain(['×', '/'], factor))
      if (!rest.startsWith(')')) throw new Error(`Not closed: ${text}`)
      rest = rest.slice(1).trim()
      return inner
    }
    const [span, after] = quantityIn(rest)
    rest = after.trim()
    return span
  }
  const chain = (of: readonly string[], next: () => Span): Span => {
    let span = next()
    for (let sign = rest[0]; sign !== undefined && of.includes(sign); sign = rest[0]) {
      rest = rest.slice(1).trim()
      span = corners(span, next(), signs[sign]!)
    }
    return span
  }
  const span = chain(['+', '−'], () => chain(['×', '/'], factor))
  if (rest !== '') throw new Error(`Not read: ${rest} of ${text}`)
  return span
}

/** What stands there as a result, in SI: time in hand is rounded down, lateness up. */
export function asWritten(text: string): Span {
  const margin = /^(.*) (to spare|too late)$/.exec(text)
  if (margin === null) return reckoned(text.replace(/^[+±]/, ''))
  const [low, high] = reckoned(margin[1]!)
  return margin[2] === 'to spare' ? [low - 30, high + 30] : [-high - 30, 30 - low]
}
