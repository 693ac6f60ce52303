import type { Plan } from '../model/plan/schema'
import type { Route } from '../model/route/route'
import type { Messages } from './messages.svelte'
import type { ViewState } from './survives'

/** What the parts of the workbench read and change of it. */
export interface Desk {
  readonly plan: Plan | undefined
  readonly route: Route | undefined
  readonly messages: Messages
  /** One step of the history: the plan after a pure change. */
  edit(change: (plan: Plan) => Plan): void
  /** Shows the plan after a change, as part of a gesture. */
  preview(change: (plan: Plan) => Plan): void
  setView(change: Partial<ViewState>): void
}
