import type { Onward } from './alignment'

/** A place that a road passes, on the drawing board in kilometres. */
export interface Pass {
  at: readonly [east: number, north: number]
  /** m; left out where the profile runs on */
  elevation?: number
  /** written to the file as a waypoint */
  place?: { name: string; type: string }
  /** how the road goes on from here; open road when left out */
  onward?: Onward
}

/** What is added to the truth when a route is written as a file. */
export interface Noise {
  /** sideways and lengthwise position error that changes slowly: standard deviation and spacing of its knots, m */
  drift: { deviation: number; spacing: number }
  /** position error that changes within a few points, m */
  wobble: { deviation: number; spacing: number }
  elevation: {
    /** slow error, as of a barometer under changing weather */
    drift: { deviation: number; spacing: number }
    /** error correlated over a short stretch */
    correlated: { deviation: number; spacing: number }
    /** standard deviation of the error that differs at each point */
    white: number
    /** share of the points that are spikes, and their largest height */
    spikes: { share: number; height: number }
    /** elevations are rounded to this */
    step: number
  }
}

/** The design of one sample route. */
export interface Design {
  file: string
  title: string
  description: string
  seed: number
  /** designed ascent of the ridden road, m */
  ascent: number
  /** mean distance between undulations of the profile, m */
  undulation: number
  /** ridden parts in order; between them lies a ferry */
  parts: readonly (readonly Pass[])[]
  /** start of the recording, UTC, and seconds of rest at places by name; a plan without times when left out */
  recorded?: { start: string; rests: Readonly<Record<string, number>> }
  noise: Noise
}

const skelbrunt = { at: [-25.0, -10.25], elevation: 3, place: { name: 'Skelbrunt Quay', type: 'harbour' } } as const
const ockerund = { at: [2.5, -3.2], elevation: 3, place: { name: 'Ockerund Harbour', type: 'harbour' } } as const

export const designs: readonly Design[] = [
  {
    file: 'two-islands-165km',
    title: 'Two islands in a day',
    description: 'A planned line round the coast of Tarrovay, over the water by ferry and round Linnovay.',
    seed: 1660,
    ascent: 1240,
    undulation: 1000,
    parts: [
      [
        skelbrunt,
        { at: [-25.6, -9.6], elevation: 6 },
        { at: [-28.2, -11.6], elevation: 38 },
        { at: [-31.6, -11.8], elevation: 22 },
        { at: [-34.0, -8.6], elevation: 92 },
        { at: [-33.0, -5.2], elevation: 18 },
        { at: [-28.5, -1.6], elevation: 4, place: { name: 'Tide Mill at Pellorick', type: 'mill' } },
        { at: [-31.4, 2.0], elevation: 42 },
        { at: [-34.4, 4.8], elevation: 128 },
        { at: [-32.8, 8.0], elevation: 28 },
        { at: [-28.4, 10.0], elevation: 66 },
        { at: [-23.0, 8.5], elevation: 8 },
        { at: [-23.2, 12.6], elevation: 82 },
        { at: [-23.0, 16.8], elevation: 26 },
        { at: [-18.6, 16.4], elevation: 142 },
        { at: [-14.0, 19.6], elevation: 18, place: { name: 'Hallomund', type: 'town' } },
        { at: [-11.0, 15.6], elevation: 116 },
        { at: [-8.2, 12.6], elevation: 8 },
        { at: [-4.4, 14.0], elevation: 86 },
        { at: [-0.6, 9.4], elevation: 14 },
        { at: [-0.6, 5.2], elevation: 10, place: { name: 'Inn at Querrel Sands', type: 'inn' } },
        { at: [1.2, 1.8], elevation: 62 },
        { at: [2.2, -1.4], elevation: 20 },
        ockerund,
      ],
      [
        { at: [14.32, 0.38], elevation: 3, place: { name: 'Wexarund Landing', type: 'harbour' } },
        { at: [15.6, -1.8], elevation: 44 },
        { at: [18.2, -6.0], elevation: 12 },
        { at: [17.2, -10.4], elevation: 96 },
        { at: [20.4, -13.2], elevation: 30 },
        { at: [23.8, -13.8], elevation: 48 },
        { at: [25.8, -10.6], elevation: 6 },
        { at: [29.8, -12.2], elevation: 82, place: { name: 'Tollan Spring', type: 'spring' } },
        { at: [32.4, -9.0], elevation: 40 },
        { at: [33.2, -5.4], elevation: 16 },
        { at: [28.8, -1.6], elevation: 8 },
        { at: [34.2, 2.4], elevation: 104 },
        { at: [33.8, 6.6], elevation: 24 },
        { at: [30.4, 9.8], elevation: 122 },
        { at: [29.2, 13.4], elevation: 30 },
        { at: [26.2, 14.2], elevation: 64 },
        { at: [24.5, 12.7], elevation: 12 },
        { at: [23.2, 11.9], elevation: 3, place: { name: 'Nethrund', type: 'town' } },
      ],
    ],
    noise: {
      drift: { deviation: 2, spacing: 350 },
      wobble: { deviation: 0.25, spacing: 45 },
      elevation: {
        drift: { deviation: 0.8, spacing: 900 },
        correlated: { deviation: 0.4, spacing: 120 },
        white: 0.15,
        spikes: { share: 0, height: 0 },
        step: 0.1,
      },
    },
  },
  {
    file: 'two-passes-62km',
    title: 'Harrun Pass and the Ennock Saddle',
    description: 'A recorded ride over both passes of Tarrovay, from the south coast and back.',
    seed: 6221,
    ascent: 1500,
    undulation: 420,
    parts: [
      [
        { at: [-8.5, -16.6], elevation: 4, place: { name: 'Sallorund', type: 'harbour' } },
        { at: [-10.2, -15.4], elevation: 22 },
        { at: [-12.6, -14.2], elevation: 64 },
        { at: [-14.8, -11.8], elevation: 160, onward: { hairpins: 9 } },
        { at: [-14.4, -10.5], elevation: 435 },
        { at: [-13.4, -8.6], elevation: 535, onward: { hairpins: 7 } },
        { at: [-13.6, -7.4], elevation: 735 },
        { at: [-14.8, -5.6], elevation: 846, place: { name: 'Harrun Pass', type: 'pass' } },
        { at: [-14.2, -3.8], elevation: 735, onward: { hairpins: 6 } },
        { at: [-13.2, -2.8], elevation: 540 },
        { at: [-13.1, -0.3], elevation: 390 },
        { at: [-11.4, 1.8], elevation: 300 },
        { at: [-8.4, 2.8], elevation: 262, place: { name: 'Upper Sorrock Inn', type: 'inn' } },
        { at: [-5.8, 2.2], elevation: 345, onward: { hairpins: 10 } },
        { at: [-5.4, 0.8], elevation: 655 },
        { at: [-6.2, -0.9], elevation: 762 },
        { at: [-4.8, -2.4], elevation: 900, place: { name: 'Ennock Saddle', type: 'pass' } },
        { at: [-5.6, -4.2], elevation: 770, onward: { hairpins: 8 } },
        { at: [-5.0, -5.3], elevation: 540 },
        { at: [-6.4, -7.6], elevation: 370 },
        { at: [-5.8, -9.8], elevation: 210, place: { name: 'Spring under Ennock', type: 'spring' } },
        { at: [-5.0, -12.4], elevation: 110 },
        { at: [-5.6, -15.2], elevation: 40 },
        { at: [-8.42, -16.52], elevation: 4 },
      ],
    ],
    recorded: { start: '2026-06-13T06:12:00Z', rests: { 'Harrun Pass': 540, 'Upper Sorrock Inn': 2100 } },
    noise: {
      drift: { deviation: 2.2, spacing: 260 },
      wobble: { deviation: 0.3, spacing: 40 },
      elevation: {
        drift: { deviation: 6, spacing: 9000 },
        correlated: { deviation: 0.3, spacing: 90 },
        white: 0.1,
        spikes: { share: 0, height: 0 },
        step: 1,
      },
    },
  },
  {
    file: 'into-town-18km',
    title: 'Into town for the market',
    description: 'A recorded ride down the valley of the Dravell to Skelbrunt.',
    seed: 1807,
    ascent: 54,
    undulation: 900,
    parts: [
      [
        { at: [-16.9, 4.42], elevation: 31, place: { name: 'Quennock Mill', type: 'mill' } },
        { at: [-18.4, 2.4], elevation: 26 },
        { at: [-19.2, -0.2], elevation: 21 },
        { at: [-21.2, -2.2], elevation: 17 },
        { at: [-21.8, -4.6], elevation: 14, place: { name: 'Dravell Bridge', type: 'bridge' } },
        { at: [-22.1, -5.4], elevation: 44 },
        { at: [-22.7, -6.0], elevation: 12 },
        { at: [-24.2, -8.2], elevation: 8, onward: 'street' },
        { at: [-24.4, -8.9], onward: 'street' },
        { at: [-24.62, -8.84], onward: 'street' },
        { at: [-24.71, -9.16], onward: 'street' },
        { at: [-24.46, -9.23], onward: 'street' },
        { at: [-24.57, -9.62], onward: 'street' },
        { at: [-24.85, -9.54], onward: 'street' },
        { at: [-25.0, -10.08], onward: 'street' },
        skelbrunt,
      ],
    ],
    recorded: { start: '2026-06-15T07:41:00Z', rests: {} },
    noise: {
      drift: { deviation: 2.4, spacing: 240 },
      wobble: { deviation: 0.3, spacing: 40 },
      elevation: {
        drift: { deviation: 1, spacing: 3000 },
        correlated: { deviation: 2, spacing: 60 },
        white: 1.5,
        spikes: { share: 0.004, height: 30 },
        step: 0.1,
      },
    },
  },
]
