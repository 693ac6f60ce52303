/** What the answer says of a plan that has stood still: fetched after the first answer. */
export { missedSailing } from '../../model/studies/missed-sailing'
export { nearWalking } from '../../model/studies/near-walking'
export { strongerLater } from '../../model/studies/stronger'
