/** The stop or crossing that Charging looks at, by its key among the occasions, also as asked for from elsewhere on the page; undefined for the first that uses the source. */
export const asked = $state<{ occasion: string | undefined }>({ occasion: undefined })

/** Key of a stop among the occasions. @param id of the stop */
export const stopKey = (id: string): string => `stop ${id}`
