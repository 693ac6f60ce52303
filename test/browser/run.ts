import { spawnSync } from 'node:child_process'
import './ready'

/** Builds the site and runs the browser tests against it. */
const words = ['playwright', 'test', '-c', 'test/browser/playwright.config.ts', ...process.argv.slice(2)]
process.exit(spawnSync('npx', words, { stdio: 'inherit' }).status ?? 1)
