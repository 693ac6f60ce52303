import type { PedalledClimb } from '../../../model/readings/pedalling'
import type { TorqueAssist } from '../../../model/studies/torque'
import type { Format } from '../../format'
import { worded } from '../worded'

/** Of the torque on the pedals. */
export const pedallingIn = ({ duration, energy, height, measure, number, percent, place }: Format) => {
  const torque = (value: number) => `${number(value, 1)} N·m`
  const cadence = (value: number) => measure(value, 'cadence')
  return {
    title: 'Torque on the climbs',
    about:
      'For a knee that must be spared: how hard each climb is on the pedals, and which assist keeps it below a figure that you were given.',
    caution:
      'No diagnosis and no advice on how much a knee bears: that figure comes from the one who treats it. Pain is a reason to stop.',
    none: 'none',
    noClimbs: 'This way has no climb that is pedalled.',
    climb: 'Climb',
    hardest: 'Hardest 100 m',
    force: 'Force on the pedal',
    mean: 'Whole climb',
    where: ({ start, end, ascent }: PedalledClimb) => `${place(start)} to ${place(end)}, ${height(ascent)} up`,
    at: (climb: PedalledClimb) => `${torque(climb.hardest.torque)} at ${cadence(climb.hardest.cadence)}`,
    forceOf: ({ hardest }: PedalledClimb) => `${number(hardest.force)} N`,
    meanOf: ({ mean }: PedalledClimb) => `${torque(mean.torque)} at ${cadence(mean.cadence)}`,
    more: (count: number) => `Show ${number(count)} more`,
    overATurn: 'Mean over a turn, of both legs; the greatest within a turn is about twice as much.',
    /** @param most N·m @param planned assist on climbs */
    answer: (most: number, planned: number) =>
      worded<TorqueAssist>({
        asPlanned: () => `With ${percent(planned)} assist on climbs, as planned, each stays below ${torque(most)}.`,
        ratio: ({ ratio, time, left }) =>
          `${percent(ratio)} assist on climbs instead of ${percent(planned)} keeps each below ${torque(most)}; you are there ${duration(Math.abs(time))} ${time > 0 ? 'later' : 'sooner'}, with ${energy(Math.abs(left))} ${left < 0 ? 'less' : 'more'} in the packs.`,
        power: ({ power }) =>
          `No assist keeps it below ${torque(most)}: at the cadence you like your own power alone asks for more. ${measure(power, 'power')} on the flat would do, or a faster cadence.`,
        motor: ({ torque: least }) =>
          `No assist that can be set keeps it below ${torque(most)}: the least is ${torque(least)}. A lower gear would do, or less power.`,
      }),
    take: (ratio: number) => `Climb with ${percent(ratio)}`,
  }
}
