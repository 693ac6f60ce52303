/**
 * Whether bands are honest: `npx tsx test/chance/coverage.ts [days]`. Simulated days whose truth is drawn and ridden apart from the model, beside what was
 * foretold of them at the finish and along the way: how many lie in the band of 80 %, how even their places are, and the score beside that of the same band half and twice as wide.
 */
import { quantile } from '../../src/model/chance/spread'
import { crpsOf, wilson } from './scores'
import { figures, judgedDays } from './truth'

const perPlan = 20
const days = Number(process.argv[2] ?? 2000)
const judged = Array.from({ length: Math.round(days / perPlan) }, (_, k) => judgedDays(k + 1, perPlan)).flat()

const finish = 'clock at 100 %'
/** Without those on which the wind brings the rider to a stand, which by the formulas alone never end; they lie outside all bands. */
const ended = judged.filter(({ came }) => came[finish]! < 86_400)

const percent = (share: number) => `${(100 * share).toFixed(1)} %`.padStart(7)
for (const figure of figures) {
  const places = judged.map(({ place }) => place[figure]!)
  const held = places.filter((place) => place >= 0.1 && place <= 0.9).length
  const [low, high] = wilson(held, places.length)
  const tenths = Array.from(
    { length: 10 },
    (_, k) => places.filter((place) => Math.floor(10 * place) === k).length / places.length,
  )
  /** Mean score of forecasts with the same middle, so many times as wide. */
  const score = (width: number) =>
    ended.reduce((sum, { came, foretold: { [figure]: values } }) => {
      const middle = quantile(values!, 0.5)
      return (
        sum +
        crpsOf(
          values!.map((value) => middle + width * (value - middle)),
          came[figure]!,
        )
      )
    }, 0) / ended.length
  const [narrow, told, wide] = [0.5, 1, 2].map(score)
  const inUnit = (value: number) =>
    figure.startsWith('clock') ? `${value.toFixed(1)} s` : `${(100 * value).toFixed(2)} %`
  console.log(
    `${figure.padEnd(15)} 80 % hold ${percent(held / places.length)} (${percent(low)} to ${percent(high)}) of ${places.length}; places by tenths ${tenths.map((share) => (100 * share).toFixed(1)).join(' ')}; CRPS ${inUnit(told!)}, half as wide ${inUnit(narrow!)}, twice ${inUnit(wide!)}`,
  )
}
