import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { toJsonSchema } from '@valibot/to-json-schema'
import { catalogue } from '../src/model/plan/catalogue'
import type { Parameter, Quantity } from '../src/model/plan/parameters'
import { planSchema } from '../src/model/plan/schema'
import { dayFileSchema } from '../src/state/day-file'
import type { FieldText } from '../src/view/words/fields'
import { foldedWordsIn } from '../src/view/words/folded'
import { wordsIn } from '../src/view/words/words'

/** From the project's folder, where npm runs: wherever this is built to. */
const fileOf = (name: string) => `static/${name}.schema.json`

/** The unit in which the plan holds each quantity: SI, but for what is rated otherwise. */
const quantityUnits: Record<Quantity, string> = {
  mass: 'kg',
  smallMass: 'kg',
  carbohydrate: 'kg',
  water: 'kg',
  power: 'W',
  speed: 'm/s',
  windSpeed: 'm/s',
  share: '1',
  area: 'm²',
  coefficient: '1',
  temperature: '°C',
  pressure: 'Pa',
  direction: 'degrees',
  acceleration: 'm/s²',
  torque: 'N·m',
  length: 'm',
  distance: 'm',
  duration: 's',
  haltTime: 's',
  voltage: 'V',
  current: 'A',
  capacity: 'A·h',
  resistance: 'Ω',
  cellResistance: 'Ω·A·h',
  lapse: 'K/m',
  count: 'number',
  crossSection: 'mm²',
  smallCurrent: 'A',
  storage: 's',
  age: 's',
  cadence: '1/s',
  crank: 'm',
  gear: '1',
  energy: 'J',
  packEnergy: 'J',
  massPerHour: 'kg/h',
  waterPerHour: 'kg/h',
  rain: 'mm/h',
}

const fields = { ...foldedWordsIn('metric').fields, ...wordsIn('metric').fields }

/** `Rider, dressed, kg. Body, clothes and shoes.` @param path in the catalogue, such as `rider.mass` */
function described(path: string): string {
  const [group, key] = path.split('.') as [keyof typeof catalogue, string]
  const { quantity } = (catalogue[group] as Record<string, Parameter>)[key]!
  const { label, meaning } = (fields[group] as Record<string, FieldText>)[key]!
  return `${label}, ${quantityUnits[quantity]}. ${meaning}`
}

const published = (title: string, schema: Parameters<typeof toJsonSchema>[0]): string =>
  JSON.stringify(
    { title, ...toJsonSchema(schema, { target: 'draft-2020-12' }) },
    (key, value: unknown) => (key === 'description' ? described(value as string) : value),
    2,
  ) + '\n'

/** The published JSON Schemas of a plan file, and of `day.json` in the file of a day, from the schemas that check them. */
export const schemas = [
  { file: fileOf('plan'), text: () => published('Wattfare plan', planSchema) },
  { file: fileOf('day'), text: () => published('Wattfare day', dayFileSchema) },
]

if (process.argv[1] === fileURLToPath(import.meta.url))
  for (const { file, text } of schemas) writeFileSync(file, text())
