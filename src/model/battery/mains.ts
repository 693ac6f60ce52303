import { acceptedCurrent, chargePack, type ChargeGoal, type ChargeRun, type MainsCharger } from './charge'
import { openCircuit, type Pack } from './pack'
import { Rows, type TransferColumns, type TransferRun } from './transfer-run'

/**
 * Charges a pack from the mains where a socket is free for a share of the stop: the result has the shape of a transfer, its times are those of
 * the stop. When the socket is free is not known, so it is taken as spread evenly; powers and currents are those while it is.
 *
 * @param pack at its temperature
 * @param charge 0 to 1
 * @param charger one that `checkCharger` does not refuse
 * @param free share of the stop in which a socket is free, 0 to 1
 * @param goal its time is that of the stop, s; `{}` charges to the end
 * @param every greatest time between two rows of `columns`, s; none are made where it is not given
 * @throws RangeError as `chargePack`, and where `free` is out of range
 */
export function fromSocket(
  pack: Pack,
  charge: number,
  charger: MainsCharger,
  free: number,
  goal: ChargeGoal,
  every?: number,
): TransferRun {
  if (!(free >= 0 && free <= 1)) throw new RangeError('A socket is free for 0 to 100 % of a stop.')
  const { time = Infinity, charge: until } = goal
  const atSocket = free > 0 ? time * free : 0
  const run = chargePack(pack, charge, charger, { time: atSocket, charge: until })
  const stopTime = (socketTime: number) => (free > 0 ? Math.min(time, socketTime / free) : 0)
  const none = free === 0 && run.end === 'time'
  return {
    time: none ? (goal.time ?? 0) : stopTime(run.time),
    charge: run.charge,
    sourceCharge: 1,
    stored: run.stored,
    delivered: run.delivered,
    drawn: run.fromMains,
    losses: {
      source: 0,
      sourceCable: 0,
      converter: run.fromMains - run.delivered,
      standby: 0,
      outputCable: 0,
      pack: run.resistiveLoss,
      coulombic: run.coulombicLoss,
    },
    phases: run.phases.map(({ limit, until: at }) => ({ limit, until: stopTime(at) })),
    end: none ? 'no socket' : run.end,
    ...(every !== undefined && { columns: columns(pack, charge, charger, run, every, free) }),
  }
}

/** Rows at even times of each phase, in the stop's time. */
function columns(
  pack: Pack,
  charge: number,
  charger: MainsCharger,
  run: ChargeRun,
  every: number,
  free: number,
): TransferColumns {
  if (!(every > 0)) throw new RangeError('The time between two rows must be above 0.')
  const rows = new Rows(pack)
  const voltage = Math.min(charger.voltage, pack.series * pack.chemistry.chargeLimitVoltage)
  const steady = Math.min(charger.current, acceptedCurrent(pack).current)
  const row = (time: number, limit: TransferColumns['limit'][number]) => {
    const { charge: z } = chargePack(pack, charge, charger, { time })
    const open = openCircuit(pack, z)
    const current = limit === 'constant voltage' ? (voltage - open) / pack.chargeResistance : steady
    const outputVoltage = open + pack.chargeResistance * current
    const given = outputVoltage * current
    const drawn = given / charger.efficiency
    const moment = { inputVoltage: 0, outputVoltage, sourceCurrent: 0, current, drawn, given }
    rows.add(time / free, moment, limit, z, 1)
  }
  let from = 0
  for (const { limit, until } of run.phases) {
    const parts = Math.ceil((until - from) / (every * free))
    for (let k = from === 0 ? 0 : 1; k <= parts; k++) row(from + ((until - from) * k) / parts, limit)
    from = until
  }
  return rows.columns()
}
