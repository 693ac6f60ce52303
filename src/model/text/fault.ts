/** A cell of a table: what it holds, its row counted as a spreadsheet counts (the headings are row 1), and the heading of its column. */
interface Cell {
  cell: string
  row: number
  heading: string
}

/** What is wrong with a table. */
type TableFault =
  | { code: 'openQuotes' }
  | { code: 'noTable' }
  | { code: 'noRows' }
  | { code: 'tooManyRows'; rows: number; most: number }
  | ({ code: 'noNumber' } & Cell)
  | ({ code: 'outOfBounds'; min: number; max: number } & Cell)

/** What is wrong with a list of sailings. */
type TimesFault =
  | { code: 'noSailing' }
  | { code: 'tooManySailings'; sailings: number; most: number }
  | { code: 'noTimeOfDay'; word: string }

/** What a column of a weather table can hold. */
export type WeatherColumn =
  'time' | 'date' | 'place' | 'distance' | 'temperature' | 'wind' | 'from' | 'rain' | 'pressure'

/** What is wrong with a weather table. */
type WeatherFault =
  | { code: 'noTimeColumn' }
  | { code: 'noWeatherColumn' }
  | { code: 'noDirectionColumn' }
  | { code: 'twoColumns'; headings: [string, string]; column: WeatherColumn }
  | { code: 'noWindUnit'; heading: string }
  | { code: 'noDistanceColumn' }
  | { code: 'noDistance'; row: number }
  | { code: 'tooManyPlaces'; row: number; most: number }
  | { code: 'hourTwice'; row: number; time: string }
  | { code: 'tooManyHours'; hours: number; place: string; most: number }
  | ({ code: 'noTime' } & Cell)
  | { code: 'noDate'; row: number; date: string }
  | { code: 'beyondTemperature'; row: number; most: number }
  | ({ code: 'noDirection' } & Cell)

/** What is wrong with a kit list. */
type KitFault =
  | { code: 'noItemColumn' }
  | { code: 'noMassColumn' }
  | { code: 'tooManyItems'; items: number; most: number }
  | { code: 'noMassUnit'; heading: string }
  | { code: 'noMass'; row: number }
  | { code: 'noName'; row: number }
  | { code: 'noCount'; row: number }
  | ({ code: 'noneOf'; choices: readonly string[] } & Cell)
  | { code: 'usedTwice'; row: number }

/** Why what was typed or pasted can't be read. */
export type Fault = TableFault | TimesFault | WeatherFault | KitFault
