import { describe, expect, it } from 'vitest'
import { defaultTiles, escaped } from '../../src/view/map/tiles'
import { isHarmless, isOwnWorker } from '../../src/view/trusted'

describe('what is taken as markup', () => {
  it.each([
    '',
    '5 km',
    '+',
    '−',
    'Surveyors &amp; friends',
    escaped('<b onclick=x>'),
    '<svg/>',
    defaultTiles.attribution,
  ])('is harmless: %j', (markup) => expect(isHarmless(markup)).toBe(true))
  it('is harmless as one attribution beside the other', () =>
    expect(isHarmless(`${defaultTiles.attribution} <span aria-hidden="true">|</span> Invented islands`)).toBe(true))
  it.each([
    '<b>',
    '<svg/onload=alert(1)>',
    '<img src=x onerror=alert(1)>',
    `${defaultTiles.attribution}<script>`,
    '<a href="javascript:alert(1)">OpenStreetMap</a>',
    // Cut out, what is known would leave an element that was none.
    '<<svg/>b onclick=x>',
  ])('is refused: %j', (markup) => expect(isHarmless(markup)).toBe(false))
})

describe('a worker', () => {
  const page = 'https://host.example/ride/index.html?a=1#top'
  it.each(['./sw.js', 'assets/route.worker-wpq6ZPsV.js', 'https://host.example/ride/assets/studies.worker-a_b-1.js'])(
    'is one of the page: %s',
    (address) => expect(isOwnWorker(address, page)).toBe(true),
  )
  it.each([
    '../sw.js',
    '/sw.js',
    'https://other.example/ride/sw.js',
    'assets/index-abc.js',
    'assets/../../route.worker-a.js',
    'assets/route.worker-a.js?b',
    'data:text/javascript,1',
    'blob:https://host.example/0',
    'javascript:1',
  ])('is none of the page: %s', (address) => expect(isOwnWorker(address, page)).toBe(false))
})
