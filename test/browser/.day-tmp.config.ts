import base from './playwright.config'
const port = 5172
export default { ...base, outputDir: '/tmp/dv/results', reporter: [['list']], use: { ...base.use, baseURL: `http://localhost:${port}/`, trace: 'off' }, workers: 1,
  webServer: { command: `node node_modules/vite/bin/vite.js preview --outDir /tmp/wfbuild2 --port ${port} --strictPort`, cwd: '/work/main', port, reuseExistingServer: false } }
