/** What numbers are written with in the rider's language. Apart from all other words, which are made with such numbers. */
export { measures } from './en/measures'
