import svelte from 'eslint-plugin-svelte'
import tseslint from 'typescript-eslint'

/** Imports go only down the list view, state, work, model; `cli` lies beside them all, and asks only the model and the words of the view. */
const layers = ['cli', 'view', 'state', 'work', 'model']
const mayNotImport = (layer) =>
  layers.slice(0, layers.indexOf(layer)).map((above) => ({
    group: [`**/${above}/**`, `../${above}`, `../${above}/*`],
    message: `${layer} does not import ${above}: imports go only down view, state, work, model.`,
  }))

/**
 * Rooms of the model, from the top down: a room asks only those on floors below it and, where the floor has several, those beside it; `geo`
 * and the tables of the root ask nothing.
 */
const floors = [
  ['decide'],
  ['chance'],
  ['export', 'studies', 'learn'],
  ['readings'],
  ['forecast'],
  ['text'],
  ['world', 'recording'],
  ['plan', 'ride', 'battery', 'route'],
  ['geo'],
]
const roomsAbove = (floor) =>
  floors.slice(0, floor).flatMap((above) =>
    above.map((room) => ({
      group: [`**/${room}/**`],
      message: `The rooms of the model ask only those below: not ${room}.`,
    })),
  )

/**
 * Words belong to the view: in the model no text has two words one behind the other, save in an error for who called it wrongly, in markup, in what
 * texts of others are searched for, and in the few values of a plan that are stored so.
 */
const twoWords = '[A-Za-z’]{2,},? [a-z]{2,}'
const storedValues = '^(in use|open water|farmland with low crops)$'
const noSentence = [
  `Literal[value=/${twoWords}/]:not([value=/^\\s*</]):not([value=/${storedValues}/]):not(ThrowStatement *):not(TSLiteralType *):not(Property > .key):not(NewExpression[callee.name="RegExp"] *)`,
  `TemplateElement[value.raw=/${twoWords}/]:not(ThrowStatement *)`,
].map((selector) => ({ selector, message: 'The model gives codes and values; src/view/words words them.' }))

/** No view has text of its own: it stands in the words. Symbols of units stand in `format.ts`. */
const read = '^(aria-label|aria-valuetext|aria-roledescription|alt|data-label|label|placeholder|title)$'
const noText = [
  'SvelteText[value=/[A-Za-z]/]:not(SvelteStyleElement > *)',
  `SvelteAttribute[key.name=/${read}/] > SvelteLiteral[value=/[A-Za-z]/]`,
  `Literal[value=/${twoWords}/]:not(ThrowStatement *):not(CallExpression[callee.property.name=/^(on|create)$/] > .arguments):not(Property[key.name="kind"] > .value)`,
  `TemplateElement[value.raw=/${twoWords}/]:not(ThrowStatement *)`,
].map((selector) => ({ selector, message: 'What is read on the page stands in src/view/words.' }))

/** What is fetched when it is needed may be missing: `fetched` of `src/state/parts.svelte.ts`, or `Later`, says so. */
const noBareImport = {
  selector: 'AwaitExpression > ImportExpression, SvelteAwaitBlock > ImportExpression',
  message: 'Through fetched() or Later, which say so where a part can’t be had.',
}

export default tseslint.config(
  { ignores: ['dist', 'node_modules', 'test-results', 'coverage'] },
  ...tseslint.configs.recommended,
  ...svelte.configs.recommended,
  {
    files: ['**/*.ts', '**/*.svelte'],
    rules: {
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', ignoreRestSiblings: true }],
      'no-useless-assignment': 'off',
      eqeqeq: ['error', 'always'],
      'no-console': ['error', { allow: ['warn', 'error'] }],
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: tseslint.parser } },
  },
  { files: ['test/**', 'sample-routes/**'], rules: { 'no-console': 'off' } },
  ...layers.map((layer) => ({
    files: [`src/${layer}/**`],
    rules: { 'no-restricted-imports': ['error', { patterns: mayNotImport(layer) }] },
  })),
  {
    files: ['src/cli/**'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: '/(state|work|view)/(?!words/)',
              message: 'cli imports only the model, and of the view its words.',
            },
          ],
        },
      ],
    },
  },
  ...floors.map((rooms, floor) => ({
    files: rooms.map((room) => `src/model/${room}/**`),
    rules: {
      'no-restricted-imports': [
        'error',
        {
          paths: ['svelte', 'leaflet', 'chart.js', 'idb', 'comlink'].map((name) => ({
            name,
            message: 'The model knows no view.',
          })),
          patterns: [...mayNotImport('model'), ...roomsAbove(floor)],
        },
      ],
    },
  })),
  {
    files: ['src/model/**'],
    rules: {
      'no-restricted-globals': ['error', 'window', 'document', 'localStorage', 'indexedDB', 'fetch', 'performance'],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'Same inputs, same bits.' },
        { object: 'Date', property: 'now', message: 'Same inputs, same bits.' },
      ],
    },
  },
  {
    files: ['src/model/**'],
    rules: { 'no-restricted-syntax': ['error', ...noSentence] },
  },
  {
    files: ['src/view/**'],
    ignores: ['src/view/words/**', 'src/view/format.ts'],
    rules: { 'no-restricted-syntax': ['error', ...noText, noBareImport] },
  },
)
