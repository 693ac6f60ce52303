import { mkdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { chromium } from 'playwright-core'
import { chromiumFlags, chromiumPath } from './chromium'

/** Draws the icons of static/icons from static/icon.svg. */
const root = fileURLToPath(new URL('../..', import.meta.url))
const svg = readFileSync(`${root}static/icon.svg`, 'utf8')
const ground = /<rect[^>]*fill="([^"]+)"/.exec(svg)![1]!

/** `drawn` is the share of the side that the picture takes: of a maskable icon only the inner 80 % is sure to be seen (W3C Web Application Manifest, icon masks). */
const icons = [
  { name: 'icon-192', side: 192, drawn: 1, full: false },
  { name: 'icon-512', side: 512, drawn: 1, full: false },
  { name: 'maskable-512', side: 512, drawn: 0.7, full: true },
  { name: 'touch-180', side: 180, drawn: 0.85, full: true },
]

mkdirSync(`${root}static/icons`, { recursive: true })
const browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags })
try {
  for (const { name, side, drawn, full } of icons) {
    const page = await browser.newPage({ viewport: { width: side, height: side } })
    const picture = `<img src="data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}" width="${side * drawn}">`
    await page.setContent(
      `<body style="margin:0;display:grid;place-items:center;height:100vh;background:${full ? ground : 'transparent'}">${picture}`,
    )
    await page.locator('img').evaluate((image: HTMLImageElement) => image.decode())
    await page.screenshot({ path: `${root}static/icons/${name}.png`, omitBackground: true })
    await page.close()
  }
} finally {
  await browser.close()
}
