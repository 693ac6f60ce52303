import { spawnSync } from 'node:child_process'
import { chromiumPath } from './chromium'
import { firefoxPath } from './firefox'

/** Both browsers are had, installed where there is none, and the site is built. */
chromiumPath()
firefoxPath()
const { status } = spawnSync('npx', ['vite', 'build', '--logLevel', 'warn'], { stdio: 'inherit' })
if (status !== 0) process.exit(status ?? 1)
