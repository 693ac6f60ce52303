import type { FuseProposal } from '../../../model/battery/fuse'
import type { TransferRun } from '../../../model/battery/transfer-run'
import type { Format } from '../../format'
import type { Figure, Reason } from '../../reasons/why.svelte'

type Words = Pick<Reason, 'title' | 'formula' | 'source' | 'heading'>
type Values = Reason['values']

/** Of why a figure is what it is: formula and source, and what is put in is called. */
export const whyIn = ({ energy, duration, measure, number, percent }: Format) => {
  const sum = 'Nothing but a sum.'
  const summed: Record<Figure, Words> = {
    finish: {
      title: 'Finish',
      formula: 'start + riding + small halts + stops + crossings',
      source: sum,
      heading: 'clock',
    },
    elapsed: { title: 'In all', formula: 'riding + small halts + stops + crossings', source: sum, heading: 'clock' },
    day: {
      title: 'Whole day',
      formula: 'riding + small halts + stops + crossings + what is halted at the finish',
      source: sum,
      heading: 'clock',
    },
    riding: {
      title: 'Riding',
      formula: 'Σ ds / v, with ½ m dv²/ds = drive − air − rolling − bearings − grade − brakes, step by step',
      source: 'Martin et al. 1998, J. Appl. Biomech. 14:276-291.',
      heading: 'motion',
    },
    smallHalts: {
      title: 'Small halts',
      formula: 'distance / 100 km × halts each 100 km',
      source: 'As you stated it.',
      heading: 'clock',
    },
    standing: { title: 'Standing', formula: 'stops + small halts', source: sum, heading: 'clock' },
    stopped: { title: 'Stops', formula: 'Σ (leave − arrive) of each stop', source: sum, heading: 'clock' },
    crossing: {
      title: 'Crossing',
      formula: 'Σ (ride on − arrive), waiting included',
      source: 'Your timetables.',
      heading: 'crossings',
    },
    packs: {
      title: 'From the packs',
      formula: 'motor’s work + motor’s losses + electronics and lights + heat in the packs',
      source: 'Loss of the drive: fitted to a measured mid-drive; of the packs: I²R by published resistances.',
      heading: 'motor',
    },
    goal: { title: 'To your goal', formula: 'goal − whole day', source: 'Your goal.', heading: 'clock' },
    ridingGoal: { title: 'Riding, to your goal', formula: 'goal − riding', source: 'Your goal.', heading: 'clock' },
    charge: {
      title: 'Charge at the finish',
      formula: '(at the start − from the packs + charged) / all packs when full',
      source: 'Open-circuit voltages and resistances by published tables; charge is counted in coulombs.',
      heading: 'packs',
    },
    least: {
      title: 'Least charge at the start',
      formula: 'reserve + what is taken from here to the finish − what is charged on the way, never below the reserve',
      source: 'The same forecast, read backwards from the finish.',
      heading: 'easeOff',
    },
    margin: {
      title: 'The narrowest margin',
      formula: 'closes or leaves − be there before − arrive',
      source: 'Your controls and timetables.',
      heading: 'clock',
    },
    work: {
      title: 'Work of your own',
      formula: '∫ power on the pedals dt; turnover = work / gross efficiency',
      source: 'Power falls with the work done: Clark et al. 2019, J. Appl. Physiol. 127:726.',
      heading: 'body',
    },
    mass: {
      title: 'What is ridden',
      formula: 'rider + bike + packs + luggage + kit + sources that are used',
      source: 'Your scale.',
      heading: 'kit',
    },
  }
  const amperes = (current: number) => measure(current, 'current')
  return {
    title: (figure: string) => `Why: ${figure}`,
    close: 'Close',
    figures: summed,
    names: {
      start: 'Start',
      length: 'Way',
      ascent: 'Climbs',
      steps: 'Steps',
      mass: 'Mass',
      dragArea: 'Drag area',
      rolling: 'Rolling coefficient',
      power: 'Your steady power',
      wind: 'Wind at 10 m',
      meanSpeed: 'Mean speed',
      eachHundred: 'Halts each 100 km',
      motorWork: 'Motor’s work',
      motorLoss: 'Motor’s losses',
      electronics: 'Electronics and lights',
      packLoss: 'Heat in the packs',
      drain: 'Drain, by the way’s length',
      goal: 'Goal',
      atFinish: 'Halted at the finish',
      leftAtStart: 'At the start',
      taken: 'From the packs',
      charged: 'Charged',
      full: 'All packs when full',
      reserve: 'Reserve',
      efficiency: 'Gross efficiency',
      turnover: 'Turnover',
      rider: 'Rider',
      bike: 'Bike',
      packs: 'Packs',
      luggage: 'Luggage',
      kit: 'Kit',
      sources: 'Sources that are used',
      otherHalt: 'Pack swapped',
    },
    /** What a charge puts into a pack. */
    stored: (run: TransferRun): Reason => ({
      title: 'Into the pack',
      formula:
        'out of the carried pack − heat in it, in both leads, converter and pack − standby − charge that does not come back',
      values: [
        ['Out of the carried pack', energy(run.drawn)],
        ['Heat in the carried pack', energy(run.losses.source)],
        ['Leads', energy(run.losses.sourceCable + run.losses.outputCable)],
        ['Converter, and its standby', energy(run.losses.converter + run.losses.standby)],
        ['Heat in the bike’s pack', energy(run.losses.pack)],
        ['Does not come back', energy(run.losses.coulombic)],
        ['Time', duration(run.time)],
      ],
      result: energy(run.stored),
      source: 'Bogacki and Shampine 1989, both sides in time; tables of cells as in the documentation.',
      heading: 'current',
    }),
    /** @param load A @param rating of the cable, A */
    fuse: (fuse: FuseProposal, load: number, rating: number): Reason => ({
      title: 'Fuse',
      formula: 'smallest size I_n with 1.25 × load ≤ I_n ≤ what the cable carries',
      values: [
        ['Greatest steady current', amperes(load)],
        ['1.25 times that', amperes(1.25 * load)],
        ['The cable carries', amperes(rating)],
      ],
      result: fuse.code === 'fuse' ? amperes(fuse.current) : 'none',
      source: 'NEC 210.20 (125 %); IEC 60364-4-43.',
      heading: 'chargingSources',
    }),
    /** Of a lead. @param resistance Ω, there and back */
    lead: (
      title: string,
      current: number,
      load: { resistance: number; drop: number; dropShare: number; loss: number },
    ): Reason => ({
      title,
      formula: 'drop = I R, loss = I² R; R there and back, R₂₀ (234.5 + T) / 254.5',
      values: [
        ['Current', amperes(current)],
        ['Resistance', measure(load.resistance, 'resistance')],
        ['Drop', `${number(load.drop, 2)} V, ${percent(load.dropShare, 1)}`],
      ],
      result: `${number(load.loss, 1)} W`,
      source: 'IEC 60228, class 5.',
      heading: 'chargingSources',
    }),
    /** What more mass costs. */
    cost: (result: string, kilograms: string): Reason => ({
      title: 'What the list costs',
      formula: 'the day as planned − the day without it: two whole forecasts',
      values: [['Mass', kilograms]] satisfies Values,
      result,
      source: 'The same forecast twice, no slope drawn out.',
      heading: 'kit',
    }),
  }
}
