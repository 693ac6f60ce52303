import { describe, expect, it } from 'vitest'
import { Refusal } from '../../src/model/route/fault'
import { lex, type Listener } from '../../src/model/route/lexer'
import { readLines } from '../../src/model/route/lines'

/** What a listener hears of a text: +name and depth, "text, -name and depth. */
function heard(text: string, more: Partial<Listener> = {}, progress: (share: number) => void = () => {}): string {
  const events: string[] = []
  lex<Listener>(
    text,
    (root) => ({
      opened: (name, attributes, depth) =>
        events.push(`+${name}${depth}${Object.entries(attributes).map(([key, value]) => ` ${key}=${value}`)}`),
      closed: (name, depth) => events.push(`-${name}${depth}`),
      said: (said) => events.push(`"${said}`),
      ...(root === 'never' ? {} : more),
    }),
    progress,
  )
  return events.join(' ')
}

function faultOf(text: string): unknown {
  try {
    heard(text)
  } catch (error) {
    if (error instanceof Refusal) return error.fault
    throw error
  }
  return undefined
}

describe('elements and texts', () => {
  it('are told in order, without prefixes, with their depth and attributes', () => {
    expect(heard('<p:a q:b="1" c="2">x<p:c/>y<![CDATA[<z>]]></p:a>')).toBe('+a1 q:b=1, c=2 "x +c2 -c2 "y "<z> -a1')
  })

  it.each([
    ['a control character', '<a>x\u0001y</a>', '+a1 "x\u0001y -a1'],
    ['an entity that is not defined', '<a>x&nbsp;y</a>', '+a1 "x&nbsp;y -a1'],
    ['an entity without a name', '<a>x&;y</a>', '+a1 "x&;y -a1'],
    ['a character by a wrong number', '<a>&#xZZ;</a>', '+a1 "&#xZZ; -a1'],
    ['two hyphens in a comment', '<a><!-- a -- b --></a>', '+a1 -a1'],
    ['brackets that close nothing', '<a>x]]>y</a>', '+a1 "x]]>y -a1'],
    ['text before the root', '<?xml version="1.0"?>t<a/>', '+a1 -a1'],
    ['an attribute twice', '<a b="1" b="2"/>', '+a1 b=2 -a1'],
    ['an attribute without value', '<a b ></a>', '+a1 -a1'],
    ['an attribute without quotes', '<a b=1 ></a>', '+a1 b=1 -a1'],
    ['attributes without blanks between', '<a b="1"c="2"/>', '+a1 b=1, c=2 -a1'],
    ['a doctype inside', '<a><!DOCTYPE x></a>', '+a1 -a1'],
    ['a declaration inside', '<a><?xml version="1.0"?></a>', '+a1 -a1'],
    ['a declaration without a version', '<?xml encoding="u"?><a/>', '+a1 -a1'],
    ['a wrong version', '<?xml version="x"?><a/>', '+a1 -a1'],
    ['a declaration without value', '<?xml version?><a/>', '+a1 -a1'],
    ['a declaration without quotes', '<?xml version=1.0?><a/>', '+a1 -a1'],
    ['a declaration in capitals', '<?XML v?><a/>', '+a1 -a1'],
    ['a declaration with more', '<?xml version="1.0" standalone="no" x="1"?><a/>', '+a1 -a1'],
    ['a declaration of something else', '<?xml version="1.0" foo="1"?><a/>', '+a1 -a1'],
    ['a wrong standing alone', '<?xml version="1.0" standalone="maybe"?><a/>', '+a1 -a1'],
    ['an instruction without a name', '<? x?><a/>', '+a1 -a1'],
    ['another root behind', '<a></a><b/>', '+a1 -a1 +b1 -b1'],
    ['a tag cut off behind the root', '<a></a><b', '+a1 -a1'],
    ['anything behind the root', '<a></a>1 < 2 & 3', '+a1 -a1'],
  ])('are read over %s', (_, text, events) => {
    expect(heard(text).startsWith(events), heard(text)).toBe(true)
  })
})

describe('a document is refused', () => {
  it.each([
    ['without an element', '<!-- -->', { code: 'noRoot' }],
    ['that ends in its first tag', '<a', { code: 'noRoot' }],
    ['that ends too soon', '<a>\n<b>\n', { code: 'cutOff', line: 3 }],
    ['that ends in a tag', '<a>\n<b', { code: 'cutOff', line: 2 }],
    ['where the wrong one is closed', '<a>\r\n<b>\r<c/></d></a>', { code: 'notClosed', tag: 'b', opened: 2, line: 3 }],
    ['where only the outer is closed', '<a><b></a>', { code: 'notClosed', tag: 'b', opened: 1, line: 1 }],
    ['with a bare less-than', '<a>\n\n1 < 2</a>', { code: 'notWellFormed', line: 3 }],
    ['with a bare ampersand in a tag', '<a>\n<b &c="1"/></a>', { code: 'notWellFormed', line: 2 }],
    ['that begins with an end', '</a>', { code: 'notWellFormed', line: 1 }],
    ['with entities of its own', '<!DOCTYPE a\n[<!ENTITY x "y">]><a/>', { code: 'entities', line: 2 }],
    ['with entities in small letters', '<!DOCTYPE a [<!entity x "y">]><a/>', { code: 'entities', line: 1 }],
  ])('%s', (_, text, fault) => {
    expect(faultOf(text)).toEqual(fault)
  })

  it('with no more than 40 letters of what was not closed', () => {
    const long = 'b'.repeat(60)
    expect(faultOf(`<a><${long}></a>`)).toEqual({ code: 'notClosed', tag: long.slice(0, 40), opened: 1, line: 1 })
  })

  it('not for a doctype without entities', () => {
    expect(heard('<!DOCTYPE a><a/>')).toBe('+a1 -a1')
  })
})

describe('a listener with an end tag of its own', () => {
  /** Who listens is known after a thousand letters. */
  const head = `<a><!--${' '.repeat(1000)}-->`
  /** Takes digits behind its tag by itself, and tells from where. */
  function reader() {
    const from: number[] = []
    const readOn = (text: string, at: number) => {
      from.push(at)
      return at + /^\d*/.exec(text.slice(at))![0].length
    }
    return { from, more: { ownEnd: '</p>', readOn } }
  }

  it('is asked right behind each element that it closed, and what it takes is told to no one', () => {
    const { from, more } = reader()
    const text = head + '<p>x</p>12<p>y</p>z<q>3</q><p></p>4</a>'
    expect(heard(text, more)).toBe('+a1 +p2 "x -p2 +p2 "y -p2 "z +q2 "3 -q2 +p2 -p2 -a1')
    const behind = [...text.matchAll(/<\/p>/g)].map(({ index }) => index + 4)
    expect(from).toEqual(behind)
  })

  it('is not asked in a comment or in a text', () => {
    const { from, more } = reader()
    expect(heard(head + '<!-- <p></p>1 --><![CDATA[</p>2]]></a>', more)).toBe('+a1 "</p>2 -a1')
    expect(from).toEqual([])
  })

  it('leaves faults at their lines', () => {
    const { more } = reader()
    const text = head + '\n<p></p>1234567\n<p>\n</p>89<b>\n</c></a>'
    try {
      heard(text, more)
      expect.unreachable()
    } catch (error) {
      expect((error as Refusal).fault).toEqual({ code: 'notClosed', tag: 'b', opened: 4, line: 5 })
    }
  })

  it('is told how far it is about every million letters, with what it takes by itself', () => {
    const shares: number[] = []
    const length = 3_500_000
    const filled = `<a>${' '.repeat(length - 7)}</a>`
    heard(filled, {}, (share) => shares.push(share))
    expect(shares.length).toBe(3)
    shares.forEach((share, k) => expect(Math.abs(share * length - (k + 1) * 2 ** 20)).toBeLessThan(2000))
    const own: number[] = []
    const text = `${head}<p></p>${'1'.repeat(2_000_000)}<p></p></a>`
    heard(text, reader().more, (share) => own.push(share))
    expect(own).toEqual([(head.length + 7 + 2_000_000) / text.length])
  })
})

describe('a document of another kind', () => {
  const fault = async (text: string) => {
    try {
      await readLines(text, () => {})
    } catch (error) {
      if (error instanceof Refusal) return error.fault
      throw error
    }
    return undefined
  }

  it('is refused by how it begins or by its root', async () => {
    expect(await fault(' \n')).toEqual({ code: 'empty' })
    expect(await fault(' {"a": 1}')).toEqual({ code: 'notXml' })
    expect(await fault('\n<html/>')).toEqual({ code: 'otherRoot', root: 'html' })
    expect(await fault(`<${'h'.repeat(50)}/>`)).toEqual({ code: 'otherRoot', root: 'h'.repeat(40) })
    expect(await fault(' <x:gpx/>')).toBeUndefined()
    expect(await fault('<kml/>')).toBeUndefined()
  })
})
