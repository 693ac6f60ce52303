import { MainsCharge, type ChargeGoal } from './charge'
import type { MainsCharger } from './charger'
import type { Filling } from './filling'
import type { Pack } from './pack'
import type { TransferRun } from './transfer-run'

/**
 * A charger at a socket that is free for a share of the stop: the result has the shape of a transfer, its times are those of the stop. When the
 * socket is free is not known, so it is taken as spread evenly; powers and currents are those while it is.
 */
export class SocketCharge implements Filling {
  time = 0
  charge = 0
  readonly sourceCharge = 1
  private readonly mains: MainsCharge
  /** Whether it would have charged, had a socket been free. */
  private idle = false

  /**
   * @param pack at its temperature
   * @param charger one that `chargerRefusal` does not refuse
   * @param free share of the stop in which a socket is free, 0 to 1
   * @throws RangeError as `MainsCharge`, and where `free` is out of range
   */
  constructor(
    pack: Pack,
    charger: MainsCharger,
    private readonly free: number,
  ) {
    if (!(free >= 0 && free <= 1)) throw new RangeError('A socket is free for 0 to 100 % of a stop.')
    this.mains = new MainsCharge(pack, charger)
  }

  fill(_sourceCharge: number, charge: number, longest: number, until: number): void {
    const { mains, free } = this
    mains.fill(charge, free > 0 ? longest * free : 0, until)
    this.settle(longest)
  }

  run(_sourceCharge: number, charge: number, { time: longest = Infinity, charge: until }: ChargeGoal): TransferRun {
    const { mains, free } = this
    const run = mains.run(charge, { time: free > 0 ? longest * free : 0, charge: until })
    this.settle(longest)
    return {
      time: this.time,
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
      phases: run.phases.map(({ limit, until }) => ({ limit, until: this.inStop(until, longest) })),
      end: this.idle ? 'noSocket' : run.end,
    }
  }

  /** Takes over where the charge ended; where no socket is free the whole time passes, if it has an end. */
  private settle(longest: number): void {
    const { mains } = this
    this.charge = mains.charge
    this.idle = this.free === 0 && !mains.done
    this.time = !this.idle ? this.inStop(mains.time, longest) : longest < Infinity ? longest : 0
  }

  /** Time of the stop in which a socket was free so long, s. */
  private inStop(socketTime: number, longest: number): number {
    return this.free > 0 ? Math.min(longest, socketTime / this.free) : 0
  }
}
