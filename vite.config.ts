import { fileURLToPath } from 'node:url'
import { svelte } from '@sveltejs/vite-plugin-svelte'
import type { Plugin } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'
import { defineConfig } from 'vitest/config'
import { licences, licencesOfWorker } from './licences.ts'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

/**
 * Map tiles and terrain tiles may come from any https host, since the rider may set another address; the page itself allows only those that are set
 * (`view/map/hosts.ts`). Nothing else leaves the page.
 */
const contentSecurityPolicy = [
  "default-src 'self'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' https: data: blob:",
  "font-src 'self'",
  "connect-src 'self' https:",
  "worker-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  // No text becomes markup or a program's address save through the policies named: view/trusted.ts, and that of Svelte's templates.
  "require-trusted-types-for 'script'",
  'trusted-types default svelte-trusted-html',
].join('; ')

/** In development Vite injects styles as elements, so the policy is written into built pages only. */
const policy: Plugin = {
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: contentSecurityPolicy },
      injectTo: 'head-prepend',
    },
  ],
}

/** All that is built is kept in the browser at the first visit; a newer version waits until the rider asks for it. */
const keptForOffline = VitePWA({
  injectRegister: false,
  registerType: 'prompt',
  includeManifestIcons: false,
  manifest: {
    name: 'Wattfare',
    short_name: 'Wattfare',
    description: 'Forecasts speed, time and battery charge of a long e-bike day from a route file.',
    lang: 'en',
    start_url: './',
    scope: './',
    display: 'standalone',
    theme_color: '#173f5f',
    background_color: '#fbfaf6',
    icons: [
      { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml' },
      { src: 'icons/icon-192.png', sizes: '192x192', type: 'image/png' },
      { src: 'icons/icon-512.png', sizes: '512x512', type: 'image/png' },
      { src: 'icons/maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
    ],
  },
  workbox: {
    globPatterns: ['**/*'],
    navigateFallback: null,
    // The page of the first visit too is served by what it has kept.
    clientsClaim: true,
    skipWaiting: false,
    inlineWorkboxRuntime: true,
  },
})

export default defineConfig({
  root: here('src'),
  base: './',
  publicDir: here('static'),
  plugins: [svelte({ configFile: false }), policy, licences(here('.')), keptForOffline],
  resolve: {
    // The map's reader of areas is one.
    dedupe: ['pmtiles'],
    // By its modules, so that what is not used of it is left out.
    alias: [{ find: /^leaflet$/, replacement: 'leaflet/dist/leaflet-src.esm.js' }],
  },
  build: {
    outDir: here('dist'),
    emptyOutDir: true,
    assetsInlineLimit: 0,
    target: 'es2022',
    modulePreload: { polyfill: false },
    // Classes of the map's library that nothing here uses are left out.
    rollupOptions: {
      treeshake: {
        manualPureFunctions: [
          'Control.extend',
          'DivOverlay.extend',
          'FeatureGroup.extend',
          'ImageOverlay.extend',
          'Layer.extend',
          'Polygon.extend',
          'TileLayer.extend',
        ],
      },
    },
  },
  worker: { format: 'es', plugins: () => [licencesOfWorker()] },
  optimizeDeps: { include: ['comlink', 'saxes', '@tmcw/togeojson', 'linkedom/worker'] },
  server: { fs: { allow: [here('.')] } },
  test: {
    root: here('.'),
    include: ['test/{unit,reference,invariants}/**/*.test.ts'],
    // Files of one worker share their modules: no test changes any. The time is no check, only an end to what hangs.
    isolate: false,
    setupFiles: ['test/setup.ts'],
    testTimeout: 60_000,
  },
})
