import type { Chances } from '../../model/chance/chances'
import type { Estimate } from '../../model/chance/spread'
import type { Spread } from '../../model/chance/training'
import type { Alternative } from '../../model/battery/alternatives'
import type { CableLoad } from '../../model/battery/cable'
import type { FuseProposal } from '../../model/battery/fuse'
import type { MomentOfRun } from '../../model/battery/moment'
import type { TransferRun } from '../../model/battery/transfer-run'
import type { Went } from '../../model/decide/assist'
import type { LatestStart } from '../../model/decide/latest-start'
import type { LoadOutRide } from '../../model/decide/load-outs'
import type { OwnTest } from '../../model/learn/foretell'
import type { PedalledClimb } from '../../model/readings/pedalling'
import type { Outcome } from '../../model/forecast/outcome'
import type { Leg } from '../../model/readings/legs'
import type { SheetRow } from '../../model/readings/sheet'
import type { MassCost, KitLine } from '../../model/studies/kit-cost'
import type { TermName } from '../words/en/terms'
import type { FigureName } from '../words/en/formulas'
import type { FormulaWords } from '../words/en/formulas/formula'

/** Figures of a forecast that say why by their name alone. */
export type StoryFigure = keyof typeof import('../words/en/formulas/story').storyFormulas

/** Why a figure is what it is. */
export interface Reason extends FormulaWords {
  figure: FigureName
  /** The formula with the values in it, where the figure can be reckoned from them by hand. */
  putIn: string | undefined
  /** What is put in, by name. */
  values: [name: string, value: string][]
  result: string
}

/** The figures of a row, of one thing, each with its reason. */
export interface Row {
  title: string
  reasons: Reason[]
}

/** What rows are made of, by where they stand. */
export interface Given {
  /** A figure of another forecast than that on screen. */
  forecast: { figure: StoryFigure; outcome: Outcome }
  leg: Leg
  place: { row: SheetRow; chances: Chances | undefined }
  wind: undefined
  light: undefined
  kit: { line: KitLine; reckoned: boolean }
  /** What something costs, by its name. */
  cost: { name: string; mass: number; cost: MassCost; isAlong: boolean }
  work: undefined
  part: { name: string; energy: number; whole: number }
  climb: PedalledClimb
  stored: TransferRun
  lead: { title: string; current: number; load: Pick<CableLoad, 'resistance' | 'drop' | 'dropShare' | 'loss'> }
  /** @property load and rating of the cable, A */
  fuse: { fuse: FuseProposal; load: number; rating: number }
  /** @property drops in both leads, V */
  flow: { moment: MomentOfRun; drops: readonly [number, number] }
  change: { name: string; row: Alternative; asItIs: Alternative }
  /** @property storing W @property drain J/m */
  minute: { time: number; storing: number; drain: number }
  /** A whole forecast beside others. */
  whole: { name: string; outcome: Outcome }
  /** @property total and parts of a difference, as they are shown */
  causes: { name: string; parts: readonly (readonly [string, string])[]; total: string }
  /** @property bound and best riding time, s @property price s/J */
  proposal: {
    before: Outcome
    went: Went
    bound: { least: number; best: number } | undefined
    price: number | undefined
  }
  loadOut: { name: string; ride: Extract<LoadOutRide, { code: 'lasts' }> }
  latestStart: { name: string; row: LatestStart; clock: string }
  /** @property name of what is to hold; undefined of the answer */
  sure: { name: string | undefined; chance: Estimate }
  driver: { name: string; share: number; error: number }
  /** @property share of weighted days @property effective so many count */
  rest: { name: string; chance: Estimate; effective: number }
  learnt: { name: string; middle: string; span: string; prior: string }
  ownTest: OwnTest
  against: { name: string; then: number; now: number }
  training: { name: string; time: Spread }
}

/** What is asked of: a figure of the forecast on screen, or a row, and of it one figure alone. */
export type AskFigure =
  StoryFigure | { [Of in keyof Given]: { of: Of; given: Given[Of]; figure?: string | undefined } }[keyof Given]

/** What is asked of: a figure, or a term of the trade. */
export type Ask = AskFigure | { term: TermName }

/** What was pressed; undefined while nothing is asked of. */
class Why {
  asked = $state.raw<{ at: HTMLElement; of: Ask } | undefined>()
}
export const why = new Why()
