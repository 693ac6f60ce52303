import { basename } from 'node:path'
import { defineConfig } from 'vite'
import { built, testsOf } from './tests'

/** The tests of a room with all that they ask of the model in a few files: to load each module by itself takes longer than most tests. */
export default defineConfig({
  build: {
    ssr: true,
    outDir: built,
    minify: false,
    sourcemap: false,
    rolldownOptions: {
      input: Object.fromEntries(testsOf().map((name) => [basename(name, '.ts'), name])),
      treeshake: false,
      output: { entryFileNames: '[name].js', chunkFileNames: 'shared-[hash].js' },
    },
  },
})
