/** What the tests use of odex 2.0.4, whose own types are its strict-unsafe source. */
export interface Solution {
  y: number[]
  outcome: number
  nStep: number
}
export class Solver {
  constructor(dimension: number)
  absoluteTolerance: number
  relativeTolerance: number
  maxSteps: number
  maxStepSize: number
  denseOutput: boolean
  solve(
    derivative: (x: number, y: number[]) => number[],
    x: number,
    y: number[],
    xEnd: number,
    output?: (nr: number, xOld: number, x: number, y: number[]) => boolean | void,
  ): Solution
}
