import type { LightsAdvice } from '../../model/readings/light'
import type { Climb } from '../../model/readings/climbs'
import type { FootCause } from '../../model/readings/on-foot'
import type { EffortFault } from '../../model/readings/rider'
import type { KitItem } from '../../model/plan/day-schema'
import type { Surface } from '../../model/plan/parameters'
import type { StretchEnd } from '../../model/plan/edit-stretches'
import type { FillFirst, PlanStretch } from '../../model/plan/schema'
import type { StretchFault } from '../../model/plan/stretches'
import type { Brought } from '../../model/studies/fill-choices'
import type { FootEdge } from '../../model/studies/near-walking'
import type { LaterCause, StrongerLater } from '../../model/studies/stronger'
import type { Fault, WeatherColumn } from '../../model/text/fault'
import type { Names } from '../../model/plan/names'
import type { Identified, PlanFault } from '../../model/plan/check'
import type { Said } from '../../state/said'
import type { LegNote } from '../../model/readings/leg-notes'
import type { SheetRow } from '../../model/readings/sheet'
import type { StretchOnWay } from '../../model/readings/stretches'
import type { Terrain } from '../../model/readings/terrain'
import type { CoverGap } from '../../model/world/weather'
import type { PlaceName } from '../../model/place-name'
import { distanceUnit, type Format } from '../format'
import { joulesPerWattHour } from '../../model/units'
import { worded } from './worded'

/** An instant, Unix time, s, as clock time of the day. */
type Clock = (instant: number) => string

/** What stands in a table's cell, and where. */
const at = ({ cell, row, heading }: { cell: string; row: number; heading: string }) =>
  `“${cell}” in row ${row}, column “${heading}”`

const columns: Record<WeatherColumn, string> = {
  time: 'time',
  date: 'date',
  place: 'place',
  distance: 'distance',
  temperature: 'temperature',
  wind: 'wind',
  from: 'from',
  rain: 'rain',
  pressure: 'pressure',
}

const identified: Record<Identified, string> = {
  packs: 'packs',
  sources: 'charge sources',
  stops: 'stops',
  controls: 'controls',
  stretches: 'stretches',
  kit: 'things of the kit',
}

const plan = worded<PlanFault>({
  noJson: () => 'This plan file is not JSON, so it was not opened.',
  noPlan: () => 'This file is not a Wattfare plan: its “format” is missing.',
  noVersion: () => 'This plan’s “version” is not a whole number from 1, so it was not opened.',
  newer: ({ version, known }) =>
    `This plan is of version ${version}, newer than this program, which knows version ${known}.`,
  noDocument: () => 'This file is not a Wattfare plan.',
  unknownField: ({ path }) => `The plan’s “${path}” is not right: no plan has it.`,
  missingField: ({ path }) => `The plan’s “${path}” is not right: it is missing.`,
  badForm: ({ path, received }) => `The plan’s “${path}” is not right: ${received} is not of its form.`,
  outOfBounds: ({ path, bound, limit, received }) =>
    `The plan’s “${path}” is not right: ${received}, but ${limit} is the ${bound}.`,
  badField: ({ path, expected, received }) => `The plan’s “${path}” is not right: ${received} in place of ${expected}.`,
  sameId: ({ of, id }) => `Two ${identified[of]} of the plan have the same id “${id}”.`,
  noSource: ({ stop }) => `The stop “${stop}” uses a charge source that the plan does not have.`,
  noSourceOfCrossing: () => 'A crossing uses a charge source that the plan does not have.',
  stretchOrder: ({ id }) => `The stretch “${id}” of the plan ends before it begins.`,
  stretchesOverlap: ({ ids }) => `The stretches “${ids[0]}” and “${ids[1]}” of the plan overlap.`,
  noZone: ({ zone }) => `“${zone}” is no time zone that the clock knows.`,
  noDate: ({ start }) => `The start “${start}” is not a date of the calendar.`,
})

const fillOrders: Record<FillFirst, string> = {
  most: 'in the order that brings most',
  'in use': 'the one in use first',
  emptiest: 'the emptiest first',
}

const capital = (text: string) => text.slice(0, 1).toUpperCase() + text.slice(1)

const surfaceNames: Record<Surface, string> = {
  asphalt: 'asphalt',
  'rough asphalt': 'rough asphalt',
  gravel: 'gravel',
  cobbles: 'cobbles',
}

/**
 * English: every text that stands for a code of the model. Another language is another file of the same type.
 *
 * @param format numbers in the rider's units
 */
export const en = (format: Format) => {
  const { distance, duration, energy, measure, number, percent, shortDistance, speed, units, volume } = format
  const [massUnits, massColumns] =
    units === 'metric' ? ['g or kg', '“mass g” or “mass kg”'] : ['oz or lb', '“mass oz” or “mass lb”']
  const footCauses: Record<FootCause, string> = {
    tooSteep: 'too steep to ride with this drive',
    noCharge: 'the motor could climb it, but no charge is left',
    weakPack: 'the motor could climb it, but the pack gives it too little',
  }
  /** `300 m on foot: too steep to ride with this drive`. @param length walked, m */
  const onFoot = (cause: FootCause, length: number) => `${shortDistance(length)} on foot: ${footCauses[cause]}`

  const place = worded<PlaceName>({
    given: ({ name }) => name,
    start: () => 'Start',
    finish: () => 'Finish',
    crossing: ({ number }) => `Crossing ${number}`,
    afterCrossing: ({ number }) => `After crossing ${number}`,
    packSpent: () => 'Pack spent',
    at: ({ distance }) => format.place(distance),
  })

  const minutes = (time: number) => measure(time, 'duration')
  /** Whole watt-hours that a halt charges, if there are any. */
  const charged = (added: number) => (added < joulesPerWattHour / 2 ? '' : `, ${energy(added)} charged`)
  const walkingNotes: Record<FootCause, string> = {
    tooSteep: 'walking where it is too steep',
    noCharge: 'walking for want of charge',
    weakPack: 'walking where the pack gives the motor too little',
  }
  const legNote = worded<LegNote>({
    reserveReached: ({ at }) => `reserve reached at ${format.place(at)}`,
    motorOff: ({ at }) => `motor off from ${format.place(at)}`,
    walking: ({ cause }) => walkingNotes[cause],
    nextPack: ({ at }) => `next pack at ${format.place(at)}`,
    crossing: ({ time, added }) => `crossing ${minutes(time)}${charged(added)}`,
    untilOpen: ({ control, time }) => `${control}: ${minutes(time)} until it opens`,
    stop: ({ stop, time, added }) => `${stop}: ${minutes(time)}${charged(added)}`,
    notCharged: ({ refusal }) => `not charged: ${refusal}`,
  })

  /** `gravel, no faster than 15 km/h`: what a stretch says of its own; empty where it says nothing yet. */
  const stretchSaid = ({ surface, shelter, speedLimit, assistRatio }: PlanStretch): string =>
    [
      ...(surface === null ? [] : [surfaceNames[surface]]),
      ...(shelter === null ? [] : [`${percent(shelter)} of the wind`]),
      ...(speedLimit === null ? [] : [`no faster than ${speed(speedLimit)}`]),
      ...(assistRatio === null ? [] : [`assist ${percent(assistRatio)}`]),
    ].join(', ')
  const stretchTitle = (stretch: PlanStretch): string =>
    stretch.name !== '' ? stretch.name : capital(stretchSaid(stretch)) || 'Nothing of its own yet'
  /** A place within a sentence. */
  const inSentence = (name: PlaceName): string =>
    name.code === 'given'
      ? name.name
      : `${name.code === 'start' || name.code === 'finish' ? 'the ' : ''}${place(name).toLowerCase()}`

  const kilograms = (mass: number) => measure(mass, 'mass', 0)
  const laterCause = worded<LaterCause>({
    charging: ({ time }) => `${duration(time)} more at the charger`,
    onFoot: ({ length }) => `${shortDistance(length)} more on foot`,
    motorOff: ({ length }) => `the packs are spent sooner, and ${distance(length)} more go without the motor`,
    swaps: ({ count }) => (count === 1 ? 'one more swap of packs' : `${count} more swaps of packs`),
    weather: () => 'you meet other weather',
  })

  return {
    route: {},

    battery: {},

    /** What things of a plan are called until the rider names them. */
    names: {
      pack: (number) => `Pack ${number}`,
      source: {
        mains: (number) => `Charger ${number}`,
        carried: (number) => `Carried pack ${number}`,
        swap: () => 'Swap the pack',
      },
      firstCharger: (current) => `Charger ${number(current)} A`,
      stop: (number) => `Stop ${number}`,
      control: (number) => `Control ${number}`,
      weatherStart: 'Start',
      weatherPlace: (number) => `Place ${number}`,
      weatherAt: (distance) => format.place(distance, distance % 1000 === 0 ? 0 : 1),
      thing: 'Thing',
    } satisfies Names,

    /** Why what was typed or pasted can't be read. */
    typed: worded<Fault>({
      openQuotes: () => 'A quotation mark in the table is never closed.',
      noTable: () => 'There is no table in what was pasted.',
      noRows: () => 'The table needs its headings in the first row, and rows below them.',
      tooManyRows: ({ rows, most }) => `The table has ${rows} rows; ${most} are the most.`,
      noNumber: (fault) => `${at(fault)} is not a number.`,
      outOfBounds: (fault) => `${at(fault)} is outside ${fault.min} to ${fault.max}.`,

      noSailing: () => 'Write at least one sailing, such as 07:00.',
      tooManySailings: ({ sailings, most }) => `There are ${sailings} sailings; ${most} are the most.`,
      noTimeOfDay: ({ word }) => `“${word}” is not a time of day: write sailings as 07:00 09:30 12:00.`,

      noTimeColumn: () => 'The table needs a column headed “time”.',
      noWeatherColumn: () => 'The table needs a column headed “temperature”, “wind”, “rain” or “pressure”.',
      noDirectionColumn: () => 'The table has wind, but no column headed “wind from” for its direction.',
      twoColumns: ({ headings, column }) =>
        `Two columns, “${headings[0]}” and “${headings[1]}”, are both taken for ${columns[column]}.`,
      noWindUnit: ({ heading }) => `The heading “${heading}” needs its unit: m/s, km/h or mph.`,
      noDistanceColumn: () =>
        `For more than one place the table needs a column headed “${distanceUnit(units)}” with each place’s distance.`,
      noDistance: ({ row }) => `Row ${row} has no distance.`,
      tooManyPlaces: ({ row, most }) => `Row ${row} begins a fourth place; ${most} are the most.`,
      hourTwice: ({ row, time }) => `Row ${row} tells the weather of ${time.replace('T', ' ')} a second time.`,
      tooManyHours: ({ hours, place, most }) => `There are ${hours} rows for ${place}; ${most} are the most.`,
      noTime: (fault) => `${at(fault)}, is not a time such as 14:00 or 2027-06-19 14:00.`,
      noDate: ({ row, date }) => `“${date}” in row ${row} is not a date of the calendar.`,
      beyondTemperature: ({ row, most }) => `The temperature of row ${row} is beyond ${measure(most, 'temperature')}.`,
      noDirection: (fault) => `${at(fault)}, is no direction: write degrees or NW.`,

      noItemColumn: () => 'The table needs a column headed “item”.',
      noMassColumn: () => `The table needs a column headed ${massColumns}.`,
      tooManyItems: ({ items, most }) => `The table has ${items} items; ${most} are the most.`,
      noMassUnit: ({ heading }) => `The heading “${heading}” needs its unit: ${massUnits}.`,
      noMass: ({ row }) => `Row ${row} has no mass.`,
      noName: ({ row }) => `Row ${row} has no name.`,
      noCount: ({ row }) => `The count in row ${row} is not a whole number.`,
      noneOf: (fault) => `${at(fault)}, should be one of: ${fault.choices.join(', ')}.`,
      usedTwice: ({ row }) => `Row ${row} is used up by the hour or by the kilometre, not both.`,
    }),

    /** How a pasted weather table is to be headed. */
    weatherHeadings:
      units === 'metric'
        ? 'Headings in the first row: time, temp °C, wind m/s (or km/h), wind from, rain mm/h, pressure hPa. For up to three places also km and place.'
        : 'Headings in the first row: time, temp °F, wind mph, wind from, rain in/h, pressure inHg. For up to three places also mi and place.',

    /** Why a document is not taken as a plan. */
    plan,

    /** What the desk has to say. */
    said: worded<Said>({
      planRefused: ({ fault }) => plan(fault),
      keptPlanRefused: ({ fault }) => `${plan(fault)} The default plan is used instead.`,
      routeUnread: ({ sentence }) => sentence,
      stretchRemoved: ({ stretch }) => `${stretchTitle(stretch)}: the stretch is removed; Undo brings it back.`,
      stopsBeyond: ({ stops }) => `${stops} of the plan’s stops lie beyond this route; they stand at its finish.`,
      notKept: () =>
        'This browser keeps nothing for the next visit, for its storage is full or forbidden: save the plan as a file.',
    }),

    /** Which pack a stop fills first. */
    fillFirst: {
      label: 'Packs are filled',
      orders: fillOrders,
      /** @param timed whether the orders take other times */
      brings: (order: FillFirst, { energy: added, time }: Brought, timed: boolean) =>
        `${fillOrders[order]}: ${energy(added)}${timed ? ` in ${duration(time)}` : ''}`,
    },

    stretches: {
      about: 'A part of the route for which you know something of its own. Parts cannot overlap.',
      add: 'Add a stretch',
      remove: 'Remove this stretch',
      name: 'Name',
      from: 'From',
      to: 'To',
      ends: 'Ridden distance from the start. It can be dragged on the map and the profile too.',
      choice: 'A choice.',
      surface: 'Surface',
      elsewhere: 'as elsewhere',
      surfaces: surfaceNames,
      said: stretchSaid,
      /** What a stretch is called: by its name, else by what it says. */
      title: stretchTitle,
      /** `km 12.5 to 18.3`. */
      span: ({ start, end }: PlanStretch) => `${format.place(start)} to ${format.place(end).replace(/^\D+/, '')}`,
      /** As the day sheet says it. */
      sentence: ({ stretch, from, to }: StretchOnWay) =>
        `${stretch.name === '' ? capital(stretchSaid(stretch)) : `${stretch.name}: ${stretchSaid(stretch)}`} from ${inSentence(from)} to ${inSentence(to)}.`,
      /** Why an end can't be where it was typed. */
      fault: (fault: StretchFault) =>
        fault.kind === 'order'
          ? 'A stretch must end after it begins.'
          : `“${stretchTitle(fault.with)}” lies from ${format.place(fault.with.start)} to ${format.place(fault.with.end)}: stretches may touch, not overlap.`,
      mark: (at: number) => `Mark a stretch at ${format.place(at)}`,
      onMap: 'Stretches',
      /** Of the sliders with which its ends are moved. */
      endOf: (end: StretchEnd, stretch: PlanStretch) =>
        `${end === 'start' ? 'Start' : 'End'} of ${stretchTitle(stretch)}`,
      moving: 'Drag it along the route, or move it with the arrow keys. Delete removes the stretch.',
      ask: 'What is different there',
    },

    kit: {
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
        mainsCharger: 'Mains charger',
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
        carriedBatteryPack: 'Carried battery pack',
        mountForACarriedPack: 'Mount for a carried pack',
        water: `Water, bottle of ${volume(0.75)}`,
        bar: 'Bar',
        gel: 'Gel',
      },
      places: {
        bike: 'on the bike',
        rider: 'on the rider',
        spare: 'as a spare',
      } satisfies Record<KitItem['place'], string>,
    },

    rider: {
      /** Why two efforts give no critical power. */
      efforts: {
        duration: 'Each effort of the test should last 2 to 20 minutes.',
        alike: 'The two efforts should differ by 3 minutes at least.',
        order: 'The shorter effort should have the higher power.',
        tooWeak: 'These two efforts give no critical power: the longer one is too weak.',
      } satisfies Record<EffortFault, string>,
      /** Why a climb is too hard. */
      tooHard: {
        abovePower: ({ riderPower }) => `${number(riderPower)} W, above critical power`,
        wPrimeSpent: () => 'W′ runs out',
        tooSteep: ({ walked }) => onFoot('tooSteep', walked.tooSteep),
        noCharge: ({ walked }) => onFoot('noCharge', walked.noCharge),
        weakPack: ({ walked }) => onFoot('weakPack', walked.weakPack),
      } satisfies Record<Climb['tooHard'][number], (climb: Climb) => string>,
      /** Said beside all that concerns the rider's body. */
      cautions: [
        'This is arithmetic, not medical advice; pain in the chest, dizziness or confusion ends the ride, and a clinician decides about the next.',
        'Drink to thirst: too much plain water over a long day can harm as much as too little.',
        'Try food and drink on short rides first.',
      ],
    },

    onFoot,

    /** What a place of the ride is called. */
    place,

    terrain: { climb: 'climb', descent: 'descent', rolling: 'rolling' } satisfies Record<Terrain, string>,

    /** What is worth saying of a leg, empty if nothing is. */
    legNotes: (notes: readonly LegNote[]) => notes.map(legNote).join('; '),

    /** What a calendar calls a row of the day sheet. */
    eventTitle: ({ kind, name, sailing }: SheetRow, clock: Clock) =>
      kind === 'crossing' && sailing !== undefined ? `${place(name)}, leaves ${clock(sailing.depart)}` : place(name),

    /** What a row of the day sheet says in one line. */
    rowLine: ({ distance, arrive, depart, charge, sailing, passage }: SheetRow, clock: Clock) =>
      [
        format.place(distance),
        depart > arrive ? `${clock(arrive)} to ${clock(depart)}` : clock(arrive),
        `charge ${percent(charge)}`,
        ...(sailing === undefined ? [] : [`leaves ${clock(sailing.depart)}`]),
        ...(passage?.opens === undefined ? [] : [`opens ${clock(passage.opens)}`]),
        ...(passage?.closes === undefined ? [] : [`closes ${clock(passage.closes)}`]),
      ].join(', '),

    /** What a weather table leaves out. */
    coverGap: ({ code, place }: CoverGap) => {
      const table = `The weather table${place === undefined ? '' : ` for ${place}`}`
      return code === 'beginsLate'
        ? `${table} begins after the start: its first row stands in before.`
        : `${table} ends before the finish: its last row stands in after.`
    },

    /** Where a little mass decides whether one rides or walks. */
    nearWalking: {
      heavier: ({ mass, distance, cause, tried, length }: FootEdge) =>
        `With about ${kilograms(mass)} more you would walk at ${format.place(distance)}: ${footCauses[cause]}.${length > 0 ? ` With ${kilograms(tried)} more it is ${shortDistance(length)} more on foot.` : ''}`,
      lighter: ({ mass, distance, tried, length }: FootEdge) =>
        `With about ${kilograms(mass)} less you would ride at ${format.place(distance)}.${length > 0 ? ` With ${kilograms(tried)} less it is ${shortDistance(length)} less on foot.` : ''}`,
    },
    /** That more power makes the day longer, and why. */
    strongerLater: ({ more, time, causes }: StrongerLater) =>
      `With ${percent(more)} more power of your own the day would be ${duration(time)} longer${causes.length > 0 ? `: ${causes.map(laterCause).join('; ')}` : ''}.`,

    lights: {
      dark: 'Part of the ride is in twilight or dark: carry lights front and rear, charged.',
      late: 'By plan it is daylight all the way, but a late hour ends in the dark: carry lights.',
      day: 'By plan it is daylight all the way; small lights still help in tunnels, rain and fog, and the law may ask for them.',
    } satisfies Record<LightsAdvice, string>,
  }
}

export type Words = ReturnType<typeof en>
