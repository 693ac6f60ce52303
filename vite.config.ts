import { fileURLToPath } from 'node:url'
import { svelte } from '@sveltejs/vite-plugin-svelte'
import type { Plugin } from 'vite'
import { defineConfig } from 'vitest/config'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

/** Map tiles may come from any https host, since the rider may set another tile address; nothing else leaves the page. */
const contentSecurityPolicy = [
  "default-src 'self'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' https: data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
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

export default defineConfig({
  root: here('src'),
  base: './',
  publicDir: here('static'),
  plugins: [svelte({ configFile: false }), policy],
  build: {
    outDir: here('dist'),
    emptyOutDir: true,
    assetsInlineLimit: 0,
    target: 'es2022',
    modulePreload: { polyfill: false },
  },
  worker: { format: 'es' },
  optimizeDeps: { include: ['comlink', 'saxes', '@tmcw/togeojson', 'linkedom/worker'] },
  server: { fs: { allow: [here('.')] } },
  test: {
    root: here('.'),
    include: ['test/{unit,reference,invariants}/**/*.test.ts'],
    // Files of one worker share their modules: no test changes any. The time is no check, only an end to what hangs.
    isolate: false,
    testTimeout: 60_000,
  },
})
