import { spawnSync } from 'node:child_process'
import { chromiumPath } from './chromium'
import { firefoxPath } from './firefox'

/** Builds the site and runs the browser tests against it. */
chromiumPath()
firefoxPath()
for (const words of [
  ['vite', 'build', '--logLevel', 'warn'],
  ['playwright', 'test', '-c', 'test/browser/playwright.config.ts', ...process.argv.slice(2)],
]) {
  const { status } = spawnSync('npx', words, { stdio: 'inherit' })
  if (status !== 0) process.exit(status ?? 1)
}
