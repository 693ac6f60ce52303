import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { History } from '../../src/state/history'

const seed = 20270619

describe('History', () => {
  it('takes an edit as one step and goes back and forth', () => {
    const history = new History('a')
    expect(history.undo()).toBe(false)
    history.edit('b')
    history.edit('c')
    expect([history.present, history.canUndo, history.canRedo]).toEqual(['c', true, false])
    expect(history.undo()).toBe(true)
    expect(history.undo()).toBe(true)
    expect([history.present, history.canUndo, history.canRedo]).toEqual(['a', false, true])
    expect(history.redo()).toBe(true)
    expect(history.present).toBe('b')
  })

  it('makes no step of an unchanged document', () => {
    const document = {}
    const history = new History(document)
    history.edit(document)
    history.preview(document)
    history.commit()
    expect(history.canUndo).toBe(false)
  })

  it('numbers its states, in a gesture as if it ended here', () => {
    const history = new History('d', 7)
    history.edit('e')
    history.edit('f')
    history.undo()
    expect(history.timeline).toEqual({ past: ['d'], present: 'e', future: ['f'], at: 8 })
    history.preview('g')
    expect(history.timeline).toEqual({ past: ['d', 'e'], present: 'g', future: [], at: 9 })
    history.cancel()
    expect(history.timeline).toEqual({ past: ['d'], present: 'e', future: ['f'], at: 8 })
    history.redo()
    expect(history.timeline.at).toBe(9)
  })

  it('takes up steps of an earlier visit, also behind what was done since', () => {
    const history = new History('c', 2)
    history.recall(['a', 'b'], ['d', 'e'])
    expect(history.timeline).toEqual({ past: ['a', 'b'], present: 'c', future: ['d', 'e'], at: 2 })
    expect([history.next('undo'), history.next('redo')]).toEqual(['b', 'd'])
    history.redo()
    expect(history.present).toBe('d')
    for (let i = 0; i < 3; i++) history.undo()
    expect([history.present, history.next('undo'), history.timeline.at]).toEqual(['a', undefined, 0])
    const edited = new History('c', 2)
    edited.edit('x')
    edited.recall(['b'], ['d'])
    expect(edited.timeline).toEqual({ past: ['b', 'c'], present: 'x', future: [], at: 3 })
  })

  it('makes one step of a gesture, whatever it showed on the way', () => {
    const history = new History('a')
    for (const shown of ['b', 'c', 'd']) history.preview(shown)
    expect(history.present).toBe('d')
    history.commit()
    expect(history.present).toBe('d')
    history.undo()
    expect(history.present).toBe('a')
    expect(history.canUndo).toBe(false)
    history.redo()
    expect(history.present).toBe('d')
  })

  it('cancels a gesture without a step and keeps what can be redone', () => {
    const history = new History('a')
    history.edit('b')
    history.undo()
    history.preview('c')
    history.cancel()
    expect([history.present, history.canUndo, history.canRedo]).toEqual(['a', false, true])
    history.redo()
    expect(history.present).toBe('b')
  })

  it('neither undoes nor redoes in the middle of a gesture', () => {
    const history = new History('a')
    history.edit('b')
    history.edit('c')
    history.undo()
    history.preview('d')
    expect([history.canUndo, history.canRedo, history.undo(), history.redo()]).toEqual([false, false, false, false])
    expect(history.present).toBe('d')
  })

  it('ends a gesture before an edit, as a step of its own', () => {
    const history = new History('a')
    history.preview('b')
    history.edit('c')
    expect(history.present).toBe('c')
    history.undo()
    expect(history.present).toBe('b')
    history.undo()
    expect(history.present).toBe('a')
  })

  it('forgets what could be redone when something else is edited', () => {
    const history = new History('a')
    history.edit('b')
    history.undo()
    history.edit('c')
    expect(history.canRedo).toBe(false)
  })

  it('does as a plain list of documents with a place in it does', () => {
    type Command = { kind: 'edit' | 'preview'; to: number } | { kind: 'commit' | 'cancel' | 'undo' | 'redo' }
    const command: fc.Arbitrary<Command> = fc.oneof(
      fc.record({ kind: fc.constantFrom('edit' as const, 'preview' as const), to: fc.nat(5) }),
      fc.record({ kind: fc.constantFrom('commit' as const, 'cancel' as const, 'undo' as const, 'redo' as const) }),
    )
    let undone = 0
    fc.assert(
      fc.property(fc.array(command, { maxLength: 40 }), (commands) => {
        const history = new History(0)
        let list = [0]
        let at = 0
        let shown: number | undefined
        const push = (to: number) => {
          if (to === list[at]) return
          list = [...list.slice(0, at + 1), to]
          at = list.length - 1
        }
        const end = () => {
          if (shown !== undefined) push(shown)
          shown = undefined
        }
        for (const step of commands) {
          if (step.kind === 'edit') {
            history.edit(step.to)
            end()
            push(step.to)
          } else if (step.kind === 'preview') {
            history.preview(step.to)
            shown = step.to
          } else {
            const worked = history[step.kind]()
            if (step.kind === 'commit') end()
            else if (step.kind === 'cancel') shown = undefined
            else {
              const by = step.kind === 'undo' ? -1 : 1
              const can = shown === undefined && list[at + by] !== undefined
              expect(worked).toBe(can)
              if (can) {
                at += by
                undone++
              }
            }
          }
          expect(history.present).toBe(shown ?? list[at])
          expect(history.canUndo).toBe(shown === undefined && at > 0)
          expect(history.canRedo).toBe(shown === undefined && at < list.length - 1)
        }
      }),
      { seed, numRuns: 500 },
    )
    expect(undone).toBeGreaterThan(100)
  })
})
