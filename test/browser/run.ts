import { spawnSync } from 'node:child_process'
import { chromiumPath } from './chromium'

/** Builds the site and runs the browser tests against it. */
chromiumPath()
for (const words of [
  ['vite', 'build', '--logLevel', 'warn'],
  ['playwright', 'test', '-c', 'test/browser/playwright.config.ts', ...process.argv.slice(2)],
]) {
  const { status } = spawnSync('npx', words, { stdio: 'inherit' })
  if (status !== 0) process.exit(status ?? 1)
}
