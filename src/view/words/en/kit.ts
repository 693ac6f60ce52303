import type { KitItem } from '../../../model/plan/day-schema'
import type { KilogramCost } from '../../../model/studies/kit-cost'
import type { Provisions } from '../../../model/plan/kit'
import { kilogramsPerPound } from '../../../model/units'
import type { Format } from '../../format'
import { mass, shortEnergy, shortTime, type Cost } from '../../kit/amounts'
import type { KitColumn } from '../../kit/columns'

const counted = (count: number, thing: string) => `${count} ${thing}${count === 1 ? '' : 's'}`

const shown = (text: string) => !/^0\.0 /.test(text)

/**
 * `costs 79 s and 2.6 Wh`; `costs 2.6 Wh and gains 3 s` where something is less than nothing.
 *
 * @param plus verb for what is above zero
 * @param minus verb for what is below
 */
function withVerbs({ time, energy }: Cost, plus: string, minus: string): string {
  const amounts = [
    { value: time, text: shortTime(time) },
    { value: energy, text: shortEnergy(energy) },
  ].filter(({ text }) => shown(text))
  const part = (verb: string, sign: 1 | -1) => {
    const texts = amounts.filter(({ value }) => value * sign > 0).map(({ text }) => text)
    return texts.length === 0 ? [] : [`${verb} ${texts.join(' and ')}`]
  }
  const parts = [...part(plus, 1), ...part(minus, -1)]
  return parts.length === 0 ? `${plus} next to nothing` : parts.join(' and ')
}

/** Why one kilogram costs something else than its neighbour. */
const whys: Record<NonNullable<KilogramCost['why']>, string> = {
  runsEmpty: 'with the one the packs run empty on the way, with the other not',
  tips: 'something tips between them, such as where a pack is spent',
}

/** Of the kit list. */
export const kitIn = ({ number, units, volume }: Format) => {
  const ofMass = (kilograms: number) => mass(kilograms, units)
  const [unitName, perUnit] = units === 'metric' ? ['kilogram', 1] : ['pound', kilogramsPerPound]
  /** What something costs; a kilogram or a pound, and the list. */
  const costs = (cost: Cost) => withVerbs(cost, 'costs', 'gains')
  /** What leaving something at home saves. */
  const saves = (cost: Cost) => withVerbs(cost, 'saves', 'costs')

  return {
    label: 'Kit list',
    list: 'The whole list',
    oneMore: `${ofMass(1)} more`,
    whyThese: 'Why these figures',
    why: (mass: string, name: string) => `${mass}, why: ${name}`,
    costs,
    saves,

    /**
     * What a kilogram or a pound costs, and what leaving the unused things at home saves.
     *
     * @param cost of a kilogram; undefined until it is known
     * @param unused what came back unused, kg, s and J; mass 0 if nothing did
     */
    eachCosts: (cost: KilogramCost | undefined, unused: (Cost & { mass: number }) | undefined): string => {
      if (cost === undefined || unused === undefined) return `What does a ${unitName} cost on this route?`
      const of = ({ time, energy }: Cost) => costs({ time: time * perUnit, energy: energy * perUnit })
      const range = cost.why === undefined ? '' : `; the last one that is there ${of(cost.last)}: ${whys[cost.why]}`
      const saved = unused.mass === 0 ? '' : `; leaving the unused ${ofMass(unused.mass)} at home ${saves(unused)}`
      return `Each ${unitName} ${of(cost.next)} on this route${range}${saved}.`
    },
    how: 'The difference of two whole forecasts, with it and without, in riding time and energy from the packs. Together things may cost more or less.',
    packsEmpty: 'The packs run empty on the way, so that weight costs time rather than energy.',
    reckoning: 'Being worked out.',

    /** Of the sum of all that comes along. */
    sum: {
      title: 'What it adds up to',
      rider: 'Rider',
      bike: 'Bike',
      packs: (packs: number) => (packs === 1 ? '1 pack' : `${packs} packs`),
      used: 'comes along: a stop charges from it',
      unused: 'comes along, used at no stop',
      home: 'stays home',
      luggage: 'Luggage that is not on the list',
      aboutLuggage: 'What stands on the list should not be in that luggage, or it counts twice.',
      list: 'The list below',
      places: ({ bike, rider, spare }: Record<'bike' | 'rider' | 'spare', number>) =>
        [
          { kilograms: bike, where: 'on the bike' },
          { kilograms: rider, where: 'on the rider' },
          { kilograms: spare, where: 'spares' },
        ]
          .filter(({ kilograms }) => kilograms > 0)
          .map(({ kilograms, where }) => `${ofMass(kilograms)} ${where}`)
          .join(', '),
      all: 'Ride in all',
    },
    listCosts: (cost: Cost) => `The whole list ${costs(cost)}.`,
    insteadOfLuggage: (luggage: number) => `The list takes the place of the ${ofMass(luggage)} of luggage.`,

    /** Of what is eaten and drunk. */
    provisions: {
      of: ({ bars, gels, bottles }: Provisions) =>
        `Up to the farthest next stop for food or water the day asks for ${counted(bars, 'bar')}, ${counted(gels, 'gel')} and ${counted(bottles, 'bottle')}.`,
      /** What the list has of it. */
      listed: (has: Provisions, need: Provisions): string =>
        has.bars === need.bars && has.gels === need.gels && has.bottles === need.bottles
          ? 'The list has just that.'
          : `The list has ${number(has.bars)}, ${number(has.gels)} and ${number(has.bottles)}.`,
      take: 'Take what the day asks for',
    },

    none: 'No list yet. Each thing on it is weighed into the forecast, and says what it costs.',
    example: 'Start with an example list',
    add: 'Add a thing',
    most: (things: number) => `${number(things)} things are the most.`,

    /** Of a list that was dropped, pasted or opened. */
    refused: (fault: string) => `${fault} The list stays as it was.`,
    read: (things: number) =>
      `${things === 1 ? '1 thing' : `${things} things`} read; undo brings back what was here before.`,
    tooLarge: (file: string) => `“${file}” is too large for a kit list.`,
    save: 'Save the list as CSV',
    fileName: (route: string) => `${route} kit.csv`,
    open: 'Read a list from a file',
    file: 'Kit list file',
    paste: 'Paste a list',
    rows: 'Rows from a spreadsheet or a CSV, headings first',
    needed:
      'Needed: item, mass g (or kg, oz, lb). If you have them: count; place (bike, rider, spare); mark (comes along, stays home, came back unused); used g per h; used g per km.',
    take: (isFirst: boolean) => (isFirst ? 'Take these rows' : 'Replace the list by these rows'),

    /** Of the table. */
    caption: 'Things to carry, with what each of them costs on this route. The heads of the columns sort it.',
    columns: {
      name: 'Thing',
      each: 'Each',
      count: 'Count',
      place: 'Rides',
      mark: 'Mark',
      use: 'Used up, drawn',
      mass: 'Mass',
      time: 'Time',
      energy: 'Energy',
    } satisfies Record<KitColumn, string>,
    /** Of a field in a row. @param thing its name */
    cells: {
      name: (thing: string) => `Name of ${thing}`,
      each: (thing: string) => `Mass of each ${thing}`,
      count: (thing: string) => `Count of ${thing}`,
      place: (thing: string) => `Where ${thing} rides`,
      mark: (thing: string) => `Mark of ${thing}`,
      use: (thing: string, used: string) => `Use of ${thing}: ${used}`,
      how: (thing: string) => `How ${thing} is used up`,
      rate: (thing: string) => `${thing} used up`,
      draws: (thing: string) => `What ${thing} is fed from`,
      watts: (thing: string) => `${thing} draws`,
      when: (thing: string) => `When ${thing} draws`,
      covers: (thing: string) => `What of the day’s food and water ${thing} is`,
    },
    needsName: (thing: string) => `A thing needs a name; until then it is “${thing}”.`,
    /** How a thing is used up. */
    uses: { none: 'lasts', time: 'by the hour', distance: 'by the distance' },
    /** What of the day’s food and water a thing is. */
    covers: { none: 'no food or water', bars: 'a bar', gels: 'a gel', bottles: 'a bottle' },
    /** What feeds a thing, and when. */
    draws: { none: 'draws nothing', packs: 'fed from the bike’s packs', own: 'fed from its own cells' },
    whens: { always: 'all day', dark: 'in twilight and dark' },
    more: 'More',
    moreOf: (thing: string) => `More of ${thing}`,
    less: 'Less',
    lessOf: (thing: string) => `Less of ${thing}`,
    remove: 'Remove',
    removeThis: (thing: string) => `Remove ${thing}`,

    /** Another thing in the place of one. */
    replace: {
      title: 'Replace a thing by another',
      old: 'Instead of',
      name: 'Take',
      each: (unit: string) => `Each, ${unit}`,
      count: 'Count',
      do: 'Replace',
      noMass: 'What does one of it weigh?',
      staysHome: (thing: string) => `“${thing}” stays home, so nothing changes on the road.`,
      /** What a change of the list does. */
      difference: (change: Cost & { mass: number }): string => {
        const { mass, time, energy } = change
        if (mass < 0) return `${ofMass(-mass)} lighter: ${saves({ time: -time, energy: -energy })}.`
        return `${mass === 0 ? 'As heavy' : `${ofMass(mass)} heavier`}: ${withVerbs(change, 'costs', 'saves')}.`
      },
    },

    /** Of what is heavy and came back unused. */
    unused: {
      title: 'Heavy and never used',
      atHome: (cost: Cost) => `, at home ${saves(cost)}`,
      leave: 'Leave at home',
      leaveThis: (thing: string) => `Leave ${thing} at home`,
      leaveAll: 'Leave all of them at home',
    },

    /** Also in the list as it leaves and comes back as a file. */
    marks: {
      comes: 'comes along',
      stays: 'stays home',
      unused: 'came back unused',
    } satisfies Record<KitItem['mark'], string>,
    /** The kit list to begin with. */
    demo: {
      pannierBag: 'Pannier bag',
      lockAndChain: 'Lock and chain',
      pump: 'Pump',
      innerTube: 'Inner tube',
      patchesAndLevers: 'Patches and levers',
      multitoolAndChainLink: 'Multi-tool and chain link',
      spareTyre: 'Spare tyre, folding',
      rainJacket: 'Rain jacket',
      rainTrousers: 'Rain trousers',
      warmLayer: 'Warm layer',
      secondPairOfShoes: 'Second pair of shoes',
      frontAndRearLamp: 'Front and rear lamp',
      firstAid: 'First aid',
      telephone: 'Telephone',
      helmet: 'Helmet',
      camera: 'Camera',
      water: `Water, bottle of ${volume(0.75)}`,
      bar: 'Bar',
      gel: 'Gel',
    },
    places: {
      bike: 'on the bike',
      rider: 'on the rider',
      spare: 'as a spare',
    } satisfies Record<KitItem['place'], string>,
  }
}
