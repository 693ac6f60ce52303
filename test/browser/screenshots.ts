import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdirSync, statSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { chromium } from 'playwright-core'
import { build } from 'vite'
import { chromiumFlags, chromiumPath } from './chromium'

/** Takes the pictures of test/screenshots: the built page with its first sample, without network. */
const root = fileURLToPath(new URL('../..', import.meta.url))
const folder = `${root}test/screenshots`
const port = 5196
const most = 400_000 // bytes

const shots = [
  { name: 'desk', width: 1440, height: 900, colorScheme: 'light' },
  { name: 'desk-dark', width: 1440, height: 900, colorScheme: 'dark' },
  { name: 'phone', width: 390, height: 844, colorScheme: 'light' },
  { name: 'phone-dark', width: 390, height: 844, colorScheme: 'dark' },
] as const

await build({ root: `${root}src`, configFile: `${root}vite.config.ts`, logLevel: 'warn' })
mkdirSync(folder, { recursive: true })
const server = spawn('node', ['node_modules/vite/bin/vite.js', 'preview', '--port', String(port), '--strictPort'], {
  cwd: root,
  stdio: ['ignore', 'pipe', 'inherit'],
})
await once(server.stdout, 'data')
const browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags })
try {
  for (const { name, width, height, colorScheme } of shots) {
    const page = await browser.newPage({
      viewport: { width, height },
      colorScheme,
      reducedMotion: 'reduce',
      serviceWorkers: 'block',
    })
    await page.route(
      ({ hostname }) => hostname !== 'localhost',
      (route) => route.abort(),
    )
    await page.goto(`http://localhost:${port}/`)
    await page.getByRole('region', { name: 'Map' }).getByRole('slider', { name: 'Inn at Querrel Sands' }).waitFor()
    await page.getByRole('link', { name: /the best stops and assist/ }).waitFor({ timeout: 60_000 })
    await page.evaluate(() => document.fonts.ready)
    await page.waitForLoadState('networkidle')
    const path = `${folder}/${name}.png`
    await page.screenshot({ path, animations: 'disabled' })
    const { size } = statSync(path)
    console.log(`${name}.png, ${Math.round(size / 1000)} kB`)
    if (size > most) throw new Error(`${name}.png is larger than ${most / 1000} kB.`)
    await page.close()
  }
} finally {
  await browser.close()
  server.kill()
}
