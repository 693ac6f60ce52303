import { defineConfig } from '@playwright/test'
import { chromiumFlags, chromiumPath } from './chromium'

/** Another port lets two runs stand beside each other. */
const port = Number(process.env.BROWSER_PORT ?? 5199)

/** Against the built site, so that the content security policy holds as it does for riders. */
export default defineConfig({
  testDir: '.',
  outputDir: '../../test-results/browser',
  timeout: 180_000,
  expect: { timeout: 15_000 },
  workers: 2,
  fullyParallel: true,
  forbidOnly: true,
  reporter: [['list'], ['json', { outputFile: '../../test-results/browser.json' }]],
  use: {
    baseURL: `http://localhost:${port}/`,
    // Only the tests of the offline page have its files kept.
    serviceWorkers: 'block',
    viewport: { width: 1440, height: 900 },
    launchOptions: { executablePath: chromiumPath(), args: chromiumFlags },
    screenshot: 'only-on-failure',
  },
  webServer: {
    command: `node node_modules/vite/bin/vite.js preview --port ${port} --strictPort`,
    cwd: new URL('../..', import.meta.url).pathname,
    port,
    reuseExistingServer: false,
  },
})
