import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, normalize } from 'node:path'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'

/** What each file takes from others by a relative path, types and what is fetched only when it is needed too. */
function importsOf(files: readonly string[], textOf: (file: string) => string): Map<string, string[]> {
  const known = new Set(files)
  const found = (path: string) => [path, `${path}.ts`, `${path}/index.ts`].find((file) => known.has(file))
  return new Map(
    files.map((file) => {
      const source = ts.createSourceFile(file, scriptsOf(file, textOf(file)), ts.ScriptTarget.Latest)
      const named: string[] = []
      const visit = (node: ts.Node): void => {
        const isLater = ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword
        const isStated = ts.isImportDeclaration(node) || ts.isExportDeclaration(node)
        const from = isStated ? node.moduleSpecifier : isLater ? node.arguments[0] : undefined
        if (from !== undefined && ts.isStringLiteral(from)) named.push(from.text)
        ts.forEachChild(node, visit)
      }
      visit(source)
      return [
        file,
        named
          .filter((path) => path.startsWith('.'))
          .flatMap((path) => found(normalize(join(dirname(file), path))) ?? []),
      ]
    }),
  )
}

const scriptsOf = (file: string, text: string): string =>
  file.endsWith('.svelte')
    ? [...text.matchAll(/<script[^>]*>(.*?)<\/script>/gs)].map(([, code]) => code).join('\n')
    : text

/** The way from a file back to itself, empty where there is none. */
function circleIn(imports: Map<string, string[]>): string[] {
  const done = new Set<string>()
  const way: string[] = []
  const follow = (file: string): string[] => {
    if (way.includes(file)) return [...way.slice(way.indexOf(file)), file]
    if (done.has(file)) return []
    way.push(file)
    for (const next of imports.get(file) ?? []) {
      const circle = follow(next)
      if (circle.length > 0) return circle
    }
    way.pop()
    done.add(file)
    return []
  }
  for (const file of imports.keys()) {
    const circle = follow(file)
    if (circle.length > 0) return circle
  }
  return []
}

describe('imports', () => {
  it('run in no circle, not by types either', () => {
    const files = ['src', 'test', 'sample-routes'].flatMap((folder) =>
      readdirSync(folder, { recursive: true, encoding: 'utf8' })
        .map((file) => join(folder, file))
        .filter((file) => /\.(ts|svelte)$/.test(file)),
    )
    const imports = importsOf(files, (file) => readFileSync(file, 'utf8'))
    expect(imports.get('src/view/App.svelte')).toContain('src/state/workbench.svelte.ts')
    expect(circleIn(imports)).toEqual([])
  })

  it('that run in one are found, by types and through a component', () => {
    const texts: Record<string, string> = {
      'a.ts': "import { b } from './b.svelte'",
      'b.svelte': '<script lang="ts">\n  import type { C } from \'./c\'\n</script>',
      'c.ts': "export type { A } from './a'",
    }
    const circle = circleIn(importsOf(Object.keys(texts), (file) => texts[file]!))
    expect(circle).toEqual(['a.ts', 'b.svelte', 'c.ts', 'a.ts'])
    texts['c.ts'] = "const a = () => import('./a')"
    expect(circleIn(importsOf(Object.keys(texts), (file) => texts[file]!))).toEqual(circle)
  })
})
