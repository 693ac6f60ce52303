/** The only conversion factors. Each but the inch of mercury is exact by definition (SI brochure; international yard and pound agreement 1959; NIST Handbook 44, appendix C). */
export const secondsPerHour = 3600
export const secondsPerMinute = 60
export const joulesPerWattHour = 3600
export const coulombsPerAmpereHour = 3600
export const metresPerKilometre = 1000
export const metresPerMile = 1609.344
export const metresPerInch = 0.0254
export const metresPerFoot = 0.3048
export const kilogramsPerPound = 0.45359237
/** The US fluid ounce, 1/128 of a gallon of 231 cubic inches. */
export const litresPerFluidOunce = 0.0295735295625
/** At 0 °C. */
export const pascalsPerInchOfMercury = 3386.389
export const kelvinAtZeroCelsius = 273.15
export const radiansPerDegree = Math.PI / 180
export const kilometresPerHour = 1 / 3.6
export const milesPerHour = metresPerMile / secondsPerHour
