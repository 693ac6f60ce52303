import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { toJsonSchema } from '@valibot/to-json-schema'
import { planSchema } from '../src/model/plan/schema'

export const schemaFile = fileURLToPath(new URL('../static/plan.schema.json', import.meta.url))

/** The published JSON Schema of a plan file, from the one schema that checks it. */
export const planJsonSchema = (): string =>
  JSON.stringify({ title: 'Wattfare plan', ...toJsonSchema(planSchema, { target: 'draft-2020-12' }) }, null, 2) + '\n'

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(schemaFile, planJsonSchema())
