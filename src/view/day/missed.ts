import type { SheetRow } from '../../model/readings/sheet'

/** Whether a row is reached after it has closed. */
export const isMissed = ({ passage }: SheetRow): boolean => passage?.met === false
