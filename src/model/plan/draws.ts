import { comesAlong } from './kit'
import type { Plan } from './schema'

/** Power that the packs give beside the motor while the bike moves, W: at any light, and in twilight and dark on top. */
export interface Draws {
  always: number
  dark: number
}

/** What the bike's electronics and lights draw, and the things of the kit that come along and are fed from the packs, each piece of them. */
export function drawsOf({ assist, kit }: Plan): Draws {
  const draws: Draws =
    assist.lightsOn === 'dark'
      ? { always: assist.electronics, dark: assist.lights }
      : { always: assist.electronics + assist.lights, dark: 0 }
  for (const item of kit)
    if (item.draws?.from === 'packs' && comesAlong(item)) draws[item.draws.when] += item.draws.power * item.count
  return draws
}
