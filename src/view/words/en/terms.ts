/** Terms of the trade that a rider may not know, as they stand in texts of the page; what each means is in `meanings.ts`. */
export const terms = {
  drain: /\bdrain\b/i,
  reserve: /\breserve\b/i,
  reach: /\breach\b(?= |$)(?! (it|the|your|that|full|them))/i,
  torque: /\btorque\b/i,
  cadence: /\bcadence\b/i,
  criticalPower: /\bcritical power\b/i,
  wPrime: /W′/,
  twilight: /\bcivil twilight\b/i,
  inSeries: /\bin series\b/i,
  inParallel: /\bin parallel\b/i,
  constantVoltage: /\bconstant voltage\b/i,
  converter: /\bconverter\b/i,
  polarity: /\bpolarity\b/i,
  milliohm: /mΩ/,
  lfp: /\bLFP\b/,
  nmc: /\bNMC\b/,
  drag: /\bair drag\b|\bdrag of the air\b|\bdrag\b(?= or|,)/i,
  rollingResistance: /\brolling resistance\b/i,
  fade: /\bfade\b/i,
  ratio: /\bratios?\b/i,
  bound: /\ba bound\b/i,
  likeTerrain: /\bstretches of like terrain\b/i,
  standardError: /\bstandard errors?\b/i,
} as const satisfies Record<string, RegExp>

export type TermName = keyof typeof terms
