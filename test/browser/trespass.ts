/** What the page's policies made of attempts to run or fetch what is not its own. */
export interface Trespass {
  /** By attempt the name of what was thrown; 'done' where nothing was. */
  thrown: Record<string, string>
  /** Addresses that a policy has blocked, without what follows the host. */
  blocked: string[]
}

/**
 * Tries all of it, as a program that got into the page might. Runs in the page.
 *
 * @param images addresses of images; the last must be one that is blocked
 */
export async function trespass(images: readonly string[]): Promise<Trespass> {
  const { trustedTypes } = globalThis as { trustedTypes?: { createPolicy(name: string, rules: object): unknown } }
  const place = document.createElement('div')
  const script = document.createElement('script')
  const markup = '<b>bold</b>'
  const attempts: Record<string, () => unknown> = {
    'markup inside': () => (place.innerHTML = markup),
    'markup beside': () => place.insertAdjacentHTML('beforeend', markup),
    'markup in a frame': () => (document.createElement('iframe').srcdoc = markup),
    'markup parsed': () => new DOMParser().parseFromString(markup, 'text/html'),
    'text of a script': () => (script.text = '1'),
    'address of a script': () => (script.src = 'assets/other.js'),
    'a worker from a text': () => new Worker('data:text/javascript,1'),
    'a worker from a file': () => new Worker('licences.txt'),
    'a policy of its own': () => trustedTypes!.createPolicy('other', {}),
    'another default': () => trustedTypes!.createPolicy('default', {}),
    'a text without markup': () => (place.innerHTML = 'bold & bright'),
  }
  const thrown: Trespass['thrown'] = {}
  for (const [name, attempt] of Object.entries(attempts))
    try {
      attempt()
      thrown[name] = 'done'
    } catch (error) {
      thrown[name] = (error as Error).name
    }

  const blocked: string[] = []
  const last = new URL(images.at(-1)!).origin
  await new Promise<void>((resolve) => {
    document.addEventListener('securitypolicyviolation', ({ blockedURI, effectiveDirective }) => {
      if (effectiveDirective !== 'img-src') return
      blocked.push(new URL(blockedURI).origin)
      if (blocked.includes(last)) resolve()
    })
    void (async () => {
      for (const address of images)
        await new Promise<void>((next) => {
          const image = new Image()
          image.onload = image.onerror = () => next()
          image.src = address
        })
    })()
  })
  return { thrown, blocked: [...new Set(blocked)] }
}

export const tileImage = 'https://tile.openstreetmap.org/0/0/0.png'
export const otherImages = ['https://tiles.example/0/0/0.png', 'https://elsewhere.example/a.png']

/** What must come of it where the default tiles are set: all is refused save a text that is none of markup, and images of their server. */
export const refused: Trespass = {
  thrown: {
    'markup inside': 'TypeError',
    'markup beside': 'TypeError',
    'markup in a frame': 'TypeError',
    'markup parsed': 'TypeError',
    'text of a script': 'TypeError',
    'address of a script': 'TypeError',
    'a worker from a text': 'TypeError',
    'a worker from a file': 'TypeError',
    'a policy of its own': 'TypeError',
    'another default': 'TypeError',
    'a text without markup': 'done',
  },
  blocked: otherImages.map((address) => new URL(address).origin),
}
