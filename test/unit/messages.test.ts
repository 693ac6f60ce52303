import { describe, expect, it } from 'vitest'
import { Messages, type Message } from '../../src/state/messages.svelte'

const news = (subject: Message['subject'], text: string): Message => ({ subject, kind: 'news', text })

describe('Messages', () => {
  it('let several subjects stand, the oldest first, and of each only what was said last', () => {
    const messages = new Messages()
    messages.say(news('file', 'not a route'))
    messages.say(news('kept', 'damaged'))
    messages.say(news('file', 'cut off'))
    expect(messages.all).toEqual([news('kept', 'damaged'), news('file', 'cut off')])
  })

  it('end what is said of one subject and leave the rest', () => {
    const messages = new Messages()
    messages.say(news('file', 'not a route'))
    messages.say(news('step', 'removed'))
    messages.end('step')
    const left = messages.all
    expect(left).toEqual([news('file', 'not a route')])
    messages.end('kept')
    expect(messages.all, 'what says nothing changes nothing').toBe(left)
  })
})
