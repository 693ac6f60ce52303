/** A voltage as the sentences print it. */
export const volts = (voltage: number): string => `${voltage.toFixed(1)} V`
