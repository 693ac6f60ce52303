import type { Outcome } from '../../model/forecast/outcome'
import type { Units } from '../format'
import { climbReasons, partReasons, workReasons } from './body'
import { changeReasons, flowReasons, fuseReasons, leadReasons, minuteReasons, storedReasons } from './charging'
import {
  againstReasons,
  causesReasons,
  driverReasons,
  latestStartReasons,
  learntReasons,
  loadOutReasons,
  ownTestReasons,
  proposalReasons,
  restReasons,
  sureReasons,
  trainingReasons,
} from './choosing'
import { wholeReasons } from './whole'
import { costReasons, kitReasons } from './kit'
import { legReasons } from './leg'
import { lightReasons } from './light'
import { placeReasons } from './place'
import { storyReason } from './story'
import { windReasons } from './wind'
import type { AskFigure, Given, Row } from './why.svelte'

const rows: { [Of in keyof Given]: (given: Given[Of], outcome: Outcome, units: Units) => Row } = {
  forecast: ({ figure, outcome }, _, units) => {
    const reason = storyReason(figure, outcome, units)
    return { title: reason.title, reasons: [reason] }
  },
  leg: legReasons,
  place: placeReasons,
  wind: windReasons,
  light: lightReasons,
  kit: kitReasons,
  cost: costReasons,
  work: workReasons,
  part: partReasons,
  climb: climbReasons,
  stored: storedReasons,
  lead: leadReasons,
  fuse: fuseReasons,
  flow: flowReasons,
  change: changeReasons,
  minute: minuteReasons,
  whole: wholeReasons,
  causes: causesReasons,
  proposal: proposalReasons,
  loadOut: loadOutReasons,
  latestStart: latestStartReasons,
  sure: sureReasons,
  driver: driverReasons,
  rest: restReasons,
  learnt: learntReasons,
  ownTest: ownTestReasons,
  against: againstReasons,
  training: trainingReasons,
}

const rowOf = <Of extends keyof Given>(of: Of, given: Given[Of], outcome: Outcome, units: Units): Row =>
  rows[of](given, outcome, units)

/** Why a figure is what it is, or each figure of a row, with the values of a forecast. */
export function reasonsOf(ask: AskFigure, outcome: Outcome, units: Units): Row {
  if (typeof ask === 'string') return rowOf('forecast', { figure: ask, outcome }, outcome, units)
  const row = rowOf(ask.of, ask.given, outcome, units)
  const one = ask.figure === undefined ? [] : row.reasons.filter(({ figure }) => figure === ask.figure)
  return one.length === 0 ? row : { title: row.title, reasons: one }
}
